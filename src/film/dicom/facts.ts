import type { FilmFacts } from '../film.ts';
import type { Attributes } from './attributes.ts';
import type { PixelDescription } from './pixel-description.ts';
import { sopClass } from './sop-class.ts';
import type { TransferSyntax } from './transfer-syntax.ts';

const LATERALITIES = ['L', 'R', 'B', 'U'] as const;

/** (0020,0062) Image Laterality wins over the series' (0020,0060): PS3.3 C.8.11.2 and C.7.3.1. */
function readLaterality(attributes: Attributes): {
  readonly value: FilmFacts['laterality'];
  readonly notes: readonly string[];
} {
  const image = attributes.string('ImageLaterality');
  const series = attributes.string('Laterality');
  const stated = image ?? series;
  const value = LATERALITIES.find((letter) => letter === stated) ?? null;
  const notes =
    image !== null && series !== null && image !== series
      ? [`The film says side ${image} and its series says ${series}; check the side marker.`]
      : [];
  return { value, notes };
}

const yesOrNo = (text: string | null) => (text === 'YES' ? true : text === 'NO' ? false : null);

const lossyOrNot = (text: string | null) => (text === '01' ? true : text === '00' ? false : null);

/** (0028,2112), one value for each compression, the first first (PS3.3 C.7.6.1.1.5.2); null where it cannot be used. */
function shareLeft(attributes: Attributes): string | null {
  const ratios = attributes.numbers('LossyImageCompressionRatio');
  if (ratios.length === 0 || !ratios.every((ratio) => ratio >= 1)) return null;
  return ratios.map((ratio) => `1/${Number(ratio.toPrecision(3))}`).join(' and then ');
}

/** Whether something was lost in compression, by what the file says and by how it is compressed now. */
function readLoss(
  attributes: Attributes,
  syntax: TransferSyntax,
): { readonly lossy: boolean | null; readonly notes: readonly string[] } {
  const stated = lossyOrNot(attributes.string('LossyImageCompression'));
  const lossy = syntax.lossy === true ? true : stated;
  if (lossy !== true) return { lossy, notes: [] };
  if (stated === false) {
    const note = `The file says that nothing was lost in compression, but ${syntax.name} always loses some; fine edges may have moved.`;
    return { lossy, notes: [note] };
  }
  const left = shareLeft(attributes);
  const note = `The film was compressed with loss, to ${left} of its size; fine edges may have moved or gone. Ask for the original where it can be had.`;
  return { lossy, notes: left === null ? [] : [note] };
}

/** Overlays have the even groups 6000–601E (PS3.5 7.6); those beyond, to 60FE, are taken for overlays too. */
export const hasOverlay = (tags: readonly string[]) => tags.some((tag) => /^x60[0-9a-f][02468ace]/.test(tag));

/** Whether the pixels of a file are anything but grey. */
export const isColour = ({ photometric }: PixelDescription): boolean => !photometric.startsWith('MONOCHROME');

/** What a DICOM film says of itself. Reads no attribute that identifies a person. */
export function readFacts(
  attributes: Attributes,
  tags: readonly string[],
  syntax: TransferSyntax,
  description: PixelDescription,
  notes: readonly string[],
): FilmFacts {
  const uid = attributes.string('SOPClassUID') ?? attributes.string('MediaStorageSOPClassUID');
  const known = uid === null ? null : sopClass(uid);
  const laterality = readLaterality(attributes);
  const orientation = attributes.strings('PatientOrientation');
  const viewCode = attributes.items('ViewCodeSequence')[0]?.string('CodeValue') ?? null;
  const loss = readLoss(attributes, syntax);
  const said: string[] = [...notes, ...laterality.notes, ...loss.notes];
  if (uid === null) said.push('The file does not say what kind of DICOM object it is.');
  else if (known === null)
    said.push(`Its kind of DICOM object (${uid}) is not known here; it may not be a radiograph.`);
  else if (known.open === 'with-a-note')
    said.push(`The file says it is a DICOM ${known.name}, not a film of a limb.`);
  if (attributes.string('PresentationIntentType') === 'FOR PROCESSING') {
    said.push('The film is raw detector data, not yet processed for viewing.');
  }
  if (hasOverlay(tags)) said.push('The file holds a drawing laid over the film; the drawing is not shown.');
  return {
    format: 'dicom',
    modality: attributes.string('Modality'),
    sopClassUid: uid,
    transferSyntaxUid: syntax.uid,
    viewPosition: attributes.string('ViewPosition'),
    ...(viewCode === null ? {} : { viewCode }),
    laterality: laterality.value,
    patientOrientation: orientation.length === 2 ? orientation : null,
    lossy: loss.lossy,
    burnedIn: yesOrNo(attributes.string('BurnedInAnnotation')),
    stored: { photometric: description.photometric, bitsAllocated: description.bitsAllocated },
    wasColour: isColour(description),
    notes: said,
  };
}
