import type { CautionFacts, FilmFacts, ReadingFacts } from '../../src/tolerance/caution-facts.ts';
import { EXAMINATION_CHECKS } from '../../src/tolerance/checks.ts';

/** Every check answered, none worryingly. */
export const REASSURING: Readonly<Record<string, 'yes' | 'no'>> = Object.fromEntries(
  EXAMINATION_CHECKS.map((check) => [check.id, check.worrying === 'yes' ? 'no' : 'yes']),
);

/** A film with nothing to warn of. */
export const film = (change: Partial<FilmFacts> = {}): FilmFacts => ({
  name: 'film of day 0',
  hand: 'injured',
  view: 'lateral',
  spacing: {
    kind: 'millimetres',
    rowSpacingMm: 0.14,
    columnSpacingMm: 0.14,
    plane: 'patient',
    origin: 'PixelSpacing',
    calibrationType: 'FIDUCIAL',
    calibrationDescription: null,
    estimatedMagnification: null,
    relativeStandardUncertainty: 0,
    conflicts: [],
  },
  axes: [
    { name: 'proximal axis', lengthMm: 30, lengthInPlacingErrors: 60 },
    { name: 'distal axis', lengthMm: 12, lengthInPlacingErrors: 24 },
  ],
  burnedIn: false,
  lossy: false,
  mirrored: false,
  statedSide: null,
  expectedSide: 'right',
  invented: false,
  reachPixels: 400,
  slant: null,
  ...change,
});

/** A reading with nothing to warn of but that it has an outcome. */
export const reading = (change: Partial<ReadingFacts> = {}): ReadingFacts => ({
  normalFrom: 'other-hand',
  normalMismatch: null,
  normalSpreadAssumed: false,
  signed: true,
  comparisons: [
    {
      limitSetTitle: 'Common practice (adult)',
      population: 'adult',
      outcome: 'inside the limit',
      methodMismatch: null,
    },
  ],
  ...change,
});

/** An adult's ring finger neck, examined, with two views and one quiet reading. */
export const facts = (change: Partial<CautionFacts> = {}): CautionFacts => ({
  injury: { ray: 'ring', region: 'neck', pattern: 'transverse', ageGroup: 'adult' },
  answers: REASSURING,
  films: [film(), film({ name: 'PA of day 0', view: 'pa', axes: [] })],
  readings: [reading()],
  changes: [],
  ...change,
});
