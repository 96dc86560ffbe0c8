import { columnsPerRow, type FilmSize, type PlateView } from '../canvas/plate-view.ts';
import { planeScale } from '../geometry/spacing.ts';
import { filmPoint, toRadians } from '../geometry/units.ts';

interface Step {
  readonly x: number;
  readonly y: number;
}

/** Less than this between two magnifications is no magnifying, but rounding. */
const LEAST_FACTOR = 1e-9;

/**
 * The view of a film that follows while the one beside it is magnified: as large in proportion, and about the same
 * place of its plate, so that what lies there stays in sight on both.
 *
 * @param before - The view of the other film before it was magnified, and after it.
 * @param magnification - What this film is magnified to.
 */
export function followed(
  view: PlateView,
  film: FilmSize,
  other: { readonly film: FilmSize; readonly before: PlateView; readonly after: PlateView },
  magnification: number,
): PlateView {
  const { before, after } = other;
  const shrunk = 1 / before.magnification - 1 / after.magnification;
  if (Math.abs(after.magnification / before.magnification - 1) < LEAST_FACTOR)
    return { ...view, magnification };
  // The film point that stays where it is on the plate lies this far from the middle of the plate, CSS pixels.
  const moved = onPlate(other.film, after, {
    x: after.centre.column - before.centre.column,
    y: after.centre.row - before.centre.row,
  });
  const still = { x: moved.x / shrunk, y: moved.y / shrunk };
  const here = 1 / view.magnification - 1 / magnification;
  const step = onFilm(film, view, { x: still.x * here, y: still.y * here });
  return {
    ...view,
    magnification,
    centre: filmPoint(view.centre.column + step.x, view.centre.row + step.y),
  };
}

/** From columns and rows of the film to the plate at one pixel a column: mirrored first, then turned clockwise. */
function onPlate(film: FilmSize, { turn, mirrored }: PlateView, { x, y }: Step): Step {
  const [cos, sin] = [Math.cos(toRadians(turn)), Math.sin(toRadians(turn))];
  const [across, down] = [mirrored ? -x : x, y * columnsPerRow(planeScale(film.spacing))];
  return { x: across * cos - down * sin, y: across * sin + down * cos };
}

/** The way back. */
function onFilm(film: FilmSize, { turn, mirrored }: PlateView, { x, y }: Step): Step {
  const [cos, sin] = [Math.cos(toRadians(turn)), Math.sin(toRadians(turn))];
  const [across, down] = [x * cos + y * sin, y * cos - x * sin];
  return { x: mirrored ? -across : across, y: down / columnsPerRow(planeScale(film.spacing)) };
}
