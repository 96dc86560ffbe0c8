import type { FilmRecord, FilmScale } from '../../case/document.ts';
import type { Spacing } from '../../geometry/spacing.ts';

/** `0.150 mm per pixel`, or both spacings where rows and columns differ. */
export function spacingInWords({ spacing, scale, shows }: Pick<FilmRecord, 'spacing' | 'scale' | 'shows'>): {
  readonly value: string;
  readonly meaning: string;
} {
  if (spacing.kind === 'ratio') {
    const pixels =
      spacing.origin === 'PixelAspectRatio'
        ? `only the shape of a pixel is stated (${spacing.rowToColumn.toFixed(3)})`
        : 'pixels are taken as square';
    const without =
      shows === 'fist' ? 'a photograph of the fist needs none' : 'lengths are shown as a share of the bone';
    return { value: 'No scale', meaning: `${pixels}; ${without}` };
  }
  const { rowSpacingMm, columnSpacingMm } = spacing;
  const value =
    rowSpacingMm === columnSpacingMm
      ? `${columnSpacingMm.toFixed(3)} mm per pixel`
      : `${rowSpacingMm.toFixed(3)} mm per row, ${columnSpacingMm.toFixed(3)} mm per column`;
  return { value, meaning: scale === undefined ? planeInWords(spacing) : scaleInWords(spacing, scale) };
}

const share = (relative: number): string => `±\u202f${(200 * relative).toFixed(1)}\u202f%`;

const OBJECT_LAY = {
  patient: 'beside the bone',
  detector: 'on the detector; 1–3 % for the height of the bone are taken off lengths',
  film: 'on the scanned film; magnification is not known',
  'not-known': 'at a height that is not known',
} as const;

const objectsOf = ({ typed, further }: Extract<FilmScale, { from: 'object' }>): string =>
  further === undefined ? `an object of ${typed}` : `objects of ${typed} and ${further.typed}`;

function scaleInWords(
  spacing: Extract<Spacing, { kind: 'millimetres' }>,
  scale: NonNullable<FilmRecord['scale']>,
): string {
  return scale.from === 'magnification'
    ? `the file’s spacing divided by its estimated magnification of ${scale.factor.toFixed(2)}, ${share(spacing.relativeStandardUncertainty)}`
    : `by ${objectsOf(scale)} that lay ${OBJECT_LAY[scale.plane]}, ${share(spacing.relativeStandardUncertainty)}`;
}

function planeInWords(spacing: Extract<Spacing, { kind: 'millimetres' }>): string {
  switch (spacing.plane) {
    case 'detector':
      return spacing.estimatedMagnification === null
        ? 'at the detector; 1–3 % for the height of the bone are taken off lengths'
        : `at the detector; the file estimates that the bone is shown ${spacing.estimatedMagnification.toFixed(2)} times its size`;
    case 'patient':
      return spacing.calibrationType === null
        ? 'in the plane of the bone'
        : `calibrated in the file (${spacing.calibrationType.toLowerCase()})`;
    case 'film':
      return 'on the scanned film; magnification is not known';
    case 'not-known':
      return 'the file does not say whether this is at the detector or at the bone';
  }
}
