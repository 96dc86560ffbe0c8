import { createHash } from 'node:crypto';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { encode } from 'fast-png';
import type { InventedFilm } from '../phantom/invent.ts';
import { inventedWindow, viewPosition } from '../phantom/to-film.ts';
import { uidFromHash } from '../record/dicom/uids.ts';
import { writeDx } from '../record/dx-writer.ts';

/** What distinguishes one invented film's files from another's. */
export interface InventedNames {
  /** Name of the files, without an ending. */
  readonly name: string;
  /** Films of one invented person on one day share it. */
  readonly study: string;
  readonly instanceNumber: number;
}

/** Always the same UID for the same words: files can be made again, byte for byte. */
const uidOf = (words: string): string => uidFromHash(createHash('sha256').update(words).digest());

/** A moment on a day that every invented film shares. */
const TAKEN_AT = { date: '20260105', time: '101500' } as const;

/** The DICOM file of an invented film. */
export function inventedDicom(film: InventedFilm, names: InventedNames): Uint8Array {
  const { truth, columns, rows, pixels } = film;
  const { beam, exposure, film: detector } = truth.spec;
  const study = `raybend invented study ${names.study}`;
  const instance = `${study} ${names.name} ${truth.filmSeed} ${JSON.stringify(truth.spec)}`;
  const written = writeDx({
    columns,
    rows,
    pixels,
    bitsStored: detector.bitsStored,
    window: inventedWindow(detector.bitsStored),
    imagerPixelSpacingMm: truth.pitchMm,
    patientSpacing:
      truth.statedPlane === 'patient'
        ? {
            spacingMm: truth.statedSpacingMm,
            description: 'Magnification at the bone, known since invented',
          }
        : null,
    magnification: beam.kind === 'cone' ? truth.magnification : null,
    distanceSourceToDetectorMm: beam.kind === 'cone' ? beam.sourceToDetectorMm : null,
    side: truth.side,
    view: truth.view,
    viewPosition: viewPosition(truth),
    seriesDescription: `Invented film, ${truth.side} hand, ${truth.view}`,
    instanceNumber: names.instanceNumber,
    // Common practice, no source: the mean energy is about six tenths of the peak.
    kilovolts: Math.round(exposure.energyKev / 0.62),
    uids: { study: uidOf(study), series: uidOf(`${instance} series`), instance: uidOf(instance) },
    patient: { name: 'INVENTED^FILM', id: `INVENTED-${names.study}` },
    takenAt: TAKEN_AT,
  });
  if (!written.ok) throw new Error(`${names.name}: ${written.error.keyword} is too long for DICOM.`);
  return written.value;
}

/** The same film as a 16-bit grey PNG; stored values are moved up so that the whole range is used. */
export function inventedPng({ columns, rows, pixels, truth }: InventedFilm): Uint8Array {
  const up = 2 ** (16 - truth.spec.film.bitsStored);
  return encode({
    width: columns,
    height: rows,
    channels: 1,
    depth: 16,
    data: pixels.map((value) => value * up),
  });
}

export const truthText = (film: InventedFilm): string => `${JSON.stringify(film.truth, null, 2)}\n`;

/** Writes NAME.dcm, NAME.png and NAME.truth.json. Returns their paths. */
export async function writeInvented(
  directory: string,
  film: InventedFilm,
  names: InventedNames,
): Promise<readonly string[]> {
  await mkdir(directory, { recursive: true });
  const files: readonly (readonly [string, Uint8Array | string])[] = [
    [`${names.name}.dcm`, inventedDicom(film, names)],
    [`${names.name}.png`, inventedPng(film)],
    [`${names.name}.truth.json`, truthText(film)],
  ];
  for (const [file, content] of files) await writeFile(join(directory, file), content);
  return files.map(([file]) => join(directory, file));
}
