import { writeDx } from '../../src/record/dx-writer.ts';

/** An uncompressed DICOM film of 12 bits with these values: `dicom-file.ts` is too slow for millions of them. */
export function largeFilmFile(columns: number, rows: number, pixels: Uint16Array, number = 1): Uint8Array {
  const written = writeDx({
    columns,
    rows,
    pixels,
    bitsStored: 12,
    window: { center: 2048, width: 4096 },
    imagerPixelSpacingMm: 0.1,
    patientSpacing: null,
    magnification: null,
    distanceSourceToDetectorMm: null,
    side: 'right',
    view: 'pa',
    viewPosition: 'PA',
    seriesDescription: 'Invented film',
    instanceNumber: number,
    kilovolts: 55,
    uids: { study: '2.25.1', series: '2.25.2', instance: `2.25.3${number}` },
    patient: { name: 'INVENTED^FILM', id: 'INVENTED' },
    takenAt: { date: '20260105', time: '101500' },
  });
  if (!written.ok) throw new Error('The film cannot be written.');
  return written.value;
}
