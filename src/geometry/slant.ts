import { type FilmPart, inverse } from './film-part.ts';
import { type Corners, type Homography, type HomographyFailure, planeHomography } from './homography.ts';
import { type Result, success } from './result.ts';
import { type Degrees, type FilmPoint, filmPoint, toDegrees } from './units.ts';

/**
 * By how much the slant of a photograph can falsify an angle at one point: the greatest difference, over all
 * pairs of lines through it, between the angle in the photograph and the angle on the sheet.
 *
 *     sin(ω/2) = (a − b) / (a + b)        a, b the greatest and least scale at the point
 *
 * @see Snyder JP. Map Projections: A Working Manual. USGS Professional Paper 1395, 1987, p. 20–21 (Tissot's
 *   indicatrix, maximum angular deformation).
 */
export function greatestAngleError(map: Homography, at: FilmPoint): Degrees {
  const [[a, b], [c, d]] = jacobian(map, at);
  // Singular values of a 2 × 2 matrix: their sum and difference are these two lengths.
  const sum = Math.hypot(a + d, b - c);
  const difference = Math.hypot(a - d, b + c);
  const share = Math.min(sum, difference) / Math.max(sum, difference);
  return toDegrees(2 * Math.asin(share));
}

function jacobian(
  map: Homography,
  { column, row }: FilmPoint,
): readonly [readonly [number, number], readonly [number, number]] {
  const [u, v, w] = map.map(([a = 0, b = 0, c = 0]) => ({ a, b, value: a * column + b * row + c }));
  if (u === undefined || v === undefined || w === undefined) throw new RangeError('A map has three rows.');
  const ratio = (top: typeof u) =>
    [
      (top.a * w.value - top.value * w.a) / w.value ** 2,
      (top.b * w.value - top.value * w.b) / w.value ** 2,
    ] as const;
  return [ratio(u), ratio(v)];
}

/** Phones take a field of view near that of a 26 mm lens on a frame 36 mm wide. Common practice, no source. */
const USUAL_FOCAL_SHARE = 26 / 36;
/** Focal lengths outside this, as a share of the longer side, are no camera's that takes a sheet: from 18 to 130 mm. */
const LEAST_FOCAL_SHARE = 0.5;
const GREATEST_FOCAL_SHARE = 3.6;

export interface Proportion {
  readonly widthToHeight: number;
  /** `assumed`: the corners do not tell how far the camera stood, so that of a phone is taken. */
  readonly focalLength: 'from the corners' | 'assumed';
}

/**
 * Proportion of a photographed rectangle, from its four corners, for a camera with square pixels whose axis goes
 * through the middle of the picture. With m₁, m₂ the images of the rectangle's two sides:
 *
 *     f² = −(a₁a₂ + b₁b₂) / (c₁c₂)        width / height = ‖(a₁, b₁, f c₁)‖ / ‖(a₂, b₂, f c₂)‖
 *
 * A picture that was cropped has its axis elsewhere, and the proportion is then off by some percent: it is a
 * start for the user to correct.
 *
 * @see Zhang Z, He LW. Whiteboard scanning and image enhancement. Digital Signal Processing 2007;17:414–432.
 */
export function rectangleProportion(
  corners: Corners,
  picture: { readonly columns: number; readonly rows: number },
): Result<Proportion, HomographyFailure> {
  const toSquare = planeHomography(corners, 1);
  if (!toSquare.ok) return toSquare;
  const longer = Math.max(picture.columns, picture.rows);
  const [top = [], middle = [], bottom = []] = inverse(toSquare.value);
  const side = (index: 0 | 1) => {
    const c = bottom[index] ?? Number.NaN;
    return {
      a: ((top[index] ?? Number.NaN) - (picture.columns / 2) * c) / longer,
      b: ((middle[index] ?? Number.NaN) - (picture.rows / 2) * c) / longer,
      c,
    };
  };
  const [one, two] = [side(0), side(1)];
  const found = -(one.a * two.a + one.b * two.b) / (one.c * two.c);
  const believable =
    Number.isFinite(found) && found >= LEAST_FOCAL_SHARE ** 2 && found <= GREATEST_FOCAL_SHARE ** 2;
  const squared = believable ? found : USUAL_FOCAL_SHARE ** 2;
  const length = ({ a, b, c }: typeof one) => Math.sqrt(a * a + b * b + squared * c * c);
  return success({
    widthToHeight: length(one) / length(two),
    focalLength: believable ? 'from the corners' : 'assumed',
  });
}

const apart = (one: FilmPoint, other: FilmPoint): number =>
  Math.hypot(one.column - other.column, one.row - other.row);

export interface Straightening {
  readonly part: Extract<FilmPart, { kind: 'corners' }>;
  /** How wrong an angle in the middle of the sheet can be in the photograph as it stands. */
  readonly angleError: Degrees;
}

/**
 * The film that a photographed sheet straightens to, at least as fine as the photograph shows it.
 *
 * Fails with `corners-not-convex` and `no-proportion`.
 */
export function straightening(
  corners: Corners,
  widthToHeight: number,
): Result<Straightening, HomographyFailure> {
  const map = planeHomography(corners, widthToHeight);
  if (!map.ok) return map;
  const [topLeft, topRight, bottomRight, bottomLeft] = corners;
  const width = Math.max(apart(topLeft, topRight), apart(bottomLeft, bottomRight));
  const height = Math.max(apart(topLeft, bottomLeft), apart(topRight, bottomRight));
  const rows = Math.max(1, Math.round(Math.max(height, width / widthToHeight)));
  const columns = Math.max(1, Math.round(rows * widthToHeight));
  const toPhotograph = inverse(map.value);
  const [u = 0, v = 0, w = 1] = toPhotograph.map(
    ([a = 0, b = 0, c = 0]) => (a * widthToHeight) / 2 + b / 2 + c,
  );
  return success({
    part: { kind: 'corners', corners, columns, rows },
    angleError: greatestAngleError(map.value, filmPoint(u / w, v / w)),
  });
}
