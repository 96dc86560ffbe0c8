import { type PlaneScale, planeScale, type Spacing } from '../geometry/spacing.ts';
import { type Degrees, degrees, type FilmPoint, filmPoint, toRadians } from '../geometry/units.ts';

/** What part of the film the plate shows, and how large. View state: never part of the case. */
export interface PlateView {
  /** The film point in the middle of the plate. */
  readonly centre: FilmPoint;
  /** Screen (CSS) pixels per column of the film. Finite, > 0. */
  readonly magnification: number;
  /** Clockwise as displayed, after mirroring. Any value; 360 is 0. */
  readonly turn: Degrees;
  /** Left and right exchanged, before turning. */
  readonly mirrored: boolean;
}

/** Size of the plate in CSS pixels. */
export interface PlateSize {
  readonly width: number;
  readonly height: number;
}

/** What a view needs to know of a film. */
export interface FilmSize {
  readonly columns: number;
  readonly rows: number;
  readonly spacing: Spacing;
}

/** One column may be drawn at most this wide: 24 CSS pixels are more than any placing needs. */
export const GREATEST_MAGNIFICATION = 24;
/** The film may be made at most this much smaller than the plate shows it whole. */
const SMALLEST_SHARE_OF_WHOLE = 0.5;

/** How many columns are as long as one row: the film's own shape of a pixel. */
export const columnsPerRow = ({ perColumn, perRow }: PlaneScale): number => perRow / perColumn;

/** The view that shows the whole film in the plate, at the given turn. */
export function wholeFilmView(
  film: FilmSize,
  size: PlateSize,
  turn: Degrees = degrees(0),
  mirrored = false,
): PlateView {
  const wide = film.columns;
  const high = film.rows * columnsPerRow(planeScale(film.spacing));
  const cos = Math.abs(Math.cos(toRadians(turn)));
  const sin = Math.abs(Math.sin(toRadians(turn)));
  return {
    centre: filmPoint(film.columns / 2, film.rows / 2),
    magnification: Math.min(size.width / (wide * cos + high * sin), size.height / (wide * sin + high * cos)),
    turn,
    mirrored,
  };
}

/** The nearest view that keeps the film in sight: its centre on the film and its magnification in range. */
export function keptInSight(view: PlateView, film: FilmSize, size: PlateSize): PlateView {
  const whole = wholeFilmView(film, size, view.turn).magnification;
  const between = (value: number, least: number, most: number) => Math.min(Math.max(value, least), most);
  return {
    ...view,
    centre: filmPoint(between(view.centre.column, 0, film.columns), between(view.centre.row, 0, film.rows)),
    magnification: between(
      view.magnification,
      Math.min(whole * SMALLEST_SHARE_OF_WHOLE, GREATEST_MAGNIFICATION),
      GREATEST_MAGNIFICATION,
    ),
  };
}

export const sameView = (one: PlateView, other: PlateView): boolean =>
  one.centre.column === other.centre.column &&
  one.centre.row === other.centre.row &&
  one.magnification === other.magnification &&
  one.turn === other.turn &&
  one.mirrored === other.mirrored;
