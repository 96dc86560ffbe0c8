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
  const said: string[] = [...notes, ...laterality.notes];
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
    lossy: lossyOrNot(attributes.string('LossyImageCompression')) ?? (syntax.lossy === true ? true : null),
    burnedIn: yesOrNo(attributes.string('BurnedInAnnotation')),
    stored: { photometric: description.photometric, bitsAllocated: description.bitsAllocated },
    wasColour: isColour(description),
    notes: said,
  };
}
