import type { Construction, View } from '../tolerance/anatomy.ts';
import { CONSTRUCTION_WORDS } from '../tolerance/limit-method.ts';
import { decimalsFor, fixedText, THIN_SPACE } from '../tolerance/number-words.ts';
import type { FilmRecord, Provenance } from './document.ts';
import type { KnownReading, Quantity } from './reading.ts';

/** What is added to the name of a construction: how its mark came about, where no hand alone placed it. */
export const PROVENANCE_WORDS: Readonly<Record<Provenance, string>> = {
  placed: '',
  traced: ', traced',
  'traced-and-corrected': ', traced and corrected',
};

/** "the outer cortices, traced": how an axis was drawn, and how its mark came about. */
export const drawnBy = (construction: Construction, provenance: Provenance | undefined): string =>
  `${CONSTRUCTION_WORDS[construction]}${PROVENANCE_WORDS[provenance ?? 'placed']}`;

/** What a film shows, as a sentence begins with it: its view in the words given. */
export const shownInWords = (
  { shows, view }: Pick<FilmRecord, 'shows' | 'view'>,
  views: Readonly<Record<View, string>>,
): string => {
  if (shows === 'fist') return 'Photograph of the fist';
  return view === null ? 'View not said' : views[view];
};

export interface FormattedReading {
  /** The value with its unit: `52°`, `2.6 mm`, `84 % of the bone`. */
  readonly value: string;
  /** The half-width of the 95 % interval, without a unit: `± 5`. */
  readonly plusMinus: string;
}

/** What stands behind a number of each unit; of a percentage, without what it is a share of. */
export const UNIT_SIGN: Readonly<Record<KnownReading['unit'], string>> = {
  degrees: '°',
  millimetres: `${THIN_SPACE}mm`,
  'percent of bone': `${THIN_SPACE}%`,
  'percent of shaft width': `${THIN_SPACE}%`,
  'percent of nail width': `${THIN_SPACE}%`,
};

const SHARE_OF: Readonly<Record<KnownReading['unit'], string>> = {
  degrees: '',
  millimetres: '',
  'percent of bone': ' of the bone',
  'percent of shaft width': ' of the shaft',
  'percent of nail width': ' of the nail',
};

/** The same in full. */
export const unitText = (unit: KnownReading['unit']): string => `${UNIT_SIGN[unit]}${SHARE_OF[unit]}`;

/**
 * How a reading is written everywhere. An angle whose apex is known is written without its sign, because
 * the apex says it in words; a deformity keeps it.
 */
export function formatReading(reading: KnownReading): FormattedReading {
  const decimals = decimalsFor(reading.expandedUncertainty);
  const shown = reading.unit === 'degrees' && reading.apex !== null ? Math.abs(reading.value) : reading.value;
  const plusMinus = `±${THIN_SPACE}${fixedText(reading.expandedUncertainty, decimals)}`;
  const number = fixedText(shown, decimals);
  return { value: `${number}${unitText(reading.unit)}`, plusMinus };
}

/** `52° ± 5` on one line. */
export function readingInWords(reading: KnownReading): string {
  const { value, plusMinus } = formatReading(reading);
  return `${value} ${plusMinus}`;
}

/** What each reading is called, everywhere. */
export const QUANTITY_NAMES: Readonly<Record<Quantity, string>> = {
  angulation: 'Angulation, measured',
  normal: 'Normal',
  deformity: 'Deformity',
  'bend-place': 'Place of the bend',
  length: 'Length of the bone',
  'shortening-by-other-hand': 'Shortening, by the other hand',
  'shortening-by-neighbours': 'Shortening, by the neighbours',
  'shortening-by-head-line': 'Shortening, by the head line',
  'shortening-by-overlap': 'Shortening, by the overlap',
  'head-line-distance': 'Distance to the head line',
  translation: 'Translation',
  'translation-of-width': 'Translation, of the shaft width',
  'joint-step': 'Joint step',
  'joint-gap': 'Joint gap',
  'spatial-angle': 'Angle in space',
  'spatial-direction': 'Plane of the angle in space',
  'nail-direction': 'Direction of the nail',
  'nail-direction-difference': 'Direction of the nail, against the other hand',
  'nail-overlap': 'Overlap of the neighbouring nail',
};

/** The name of a reading on a film of this view: from the front an angle is a coronal one, and is called so. */
export function quantityName(quantity: Quantity, view: View | null): string {
  if (view !== 'pa') return QUANTITY_NAMES[quantity];
  if (quantity === 'angulation') return 'Coronal angulation, measured';
  if (quantity === 'deformity') return 'Coronal deformity';
  return QUANTITY_NAMES[quantity];
}

/** `day 0`, `day 12`, `day not said`. */
export const formatDay = (day: number | null): string => (day === null ? 'day not said' : `day ${day}`);
