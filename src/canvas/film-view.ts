import { type Projection, toFilm, toScreen } from '../drawing/projection.ts';
import type { Film } from '../film/film.ts';
import { degrees, type FilmPoint, filmPoint, type ScreenPoint, screenPoint } from '../geometry/units.ts';
import type { FilmSurface } from './film-surface.ts';
import { keptInSight, type PlateSize, type PlateView, sameView, wholeFilmView } from './plate-view.ts';
import type { Pair } from './tools/pointing.ts';

/** Points shown large fill this share of the plate's width or height. */
const LARGE_SHARE = 0.72;
/** A smaller factor is not worth moving the film for. */
const WORTH_MAGNIFYING = 1.4;

const endsOf = (values: readonly number[]) => [Math.min(...values), Math.max(...values)] as const;

/**
 * The view of the film: keeps it in sight, remembers whether it is the whole film (which then stays whole
 * when the plate changes its size), and moves and magnifies it so that the film stays under the fingers.
 */
export class FilmView {
  private film: Film | null = null;
  private view: PlateView = { centre: filmPoint(0, 0), magnification: 1, turn: degrees(0), mirrored: false };
  private whole = true;
  private plate: PlateSize = { width: 0, height: 0 };

  /**
   * @param onChanged - Told of the view, and whether it is that of the whole film, when the film was moved or magnified
   *   here or is shown whole: also where `set` turned a whole film, or a whole film follows the size of the plate. Not
   *   told where `set` or another film changes the view, nor where a part of the film is kept in sight at a new size.
   */
  constructor(
    private readonly surface: FilmSurface,
    private readonly onChanged: (view: PlateView, whole: boolean) => void,
  ) {}

  get current(): PlateView {
    return this.view;
  }

  get size(): PlateSize {
    return this.plate;
  }

  /** The map of the frame to come; null while there is no film or the plate has no size. */
  get projection(): Projection | null {
    return this.surface.projection();
  }

  /** Another film is shown whole, upright and unmirrored; the same one with another spacing as it was. */
  setFilm(film: Film | null, same: boolean): void {
    this.film = film;
    if (film === null) return;
    if (same) {
      this.setSize(this.plate);
    } else {
      this.whole = true;
      this.apply(wholeFilmView(film, this.plate));
    }
  }

  setSize(size: PlateSize): void {
    this.plate = size;
    if (this.film === null) return;
    if (this.whole) this.showWhole();
    else this.apply(keptInSight(this.view, this.film, size));
  }

  /** A view that differs from the whole film in turn or mirroring alone stays the whole film. */
  set(view: PlateView): void {
    if (this.film === null || sameView(view, this.view)) return;
    const turnedOnly = sameView({ ...view, turn: this.view.turn, mirrored: this.view.mirrored }, this.view);
    if (this.whole && turnedOnly) {
      this.apply(view);
      this.showWhole();
      return;
    }
    this.whole = false;
    this.apply(keptInSight(view, this.film, this.plate));
  }

  showWhole(): void {
    if (this.film === null) return;
    this.whole = true;
    this.apply(wholeFilmView(this.film, this.plate, this.view.turn, this.view.mirrored));
    this.onChanged(this.view, true);
  }

  /** Moves the film so that what is under `from` comes under `to`. */
  move(from: ScreenPoint, to: ScreenPoint): void {
    const { projection } = this;
    if (projection !== null) this.land(toFilm(projection, from), to, this.view.magnification);
  }

  /** Magnifies so that the film under `about` stays there. */
  magnify(about: ScreenPoint, factor: number): void {
    const { projection } = this;
    if (projection !== null) this.land(toFilm(projection, about), about, this.view.magnification * factor);
  }

  magnifyAboutMiddle(factor: number): void {
    this.magnify(screenPoint(this.plate.width / 2, this.plate.height / 2), factor);
  }

  /** Two fingers move and magnify; the film between them stays between them. */
  pinch(from: Pair, to: Pair): void {
    const { projection } = this;
    if (projection === null) return;
    const middle = ([one, other]: Pair) => screenPoint((one.x + other.x) / 2, (one.y + other.y) / 2);
    const apart = ([one, other]: Pair) => Math.hypot(one.x - other.x, one.y - other.y);
    // Fingers that lie on one point give no factor.
    const factor = apart(from) > 0 && apart(to) > 0 ? apart(to) / apart(from) : 1;
    this.land(toFilm(projection, middle(from)), middle(to), this.view.magnification * factor);
  }

  /** Brings a point of the film that lies outside the plate into its middle. */
  reveal(point: FilmPoint, at: ScreenPoint): void {
    const { width, height } = this.plate;
    const inside = at.x > 0 && at.y > 0 && at.x < width && at.y < height;
    if (!inside) this.land(point, screenPoint(width / 2, height / 2), this.view.magnification);
  }

  /** Magnifies until these points fill most of the plate; where they nearly do, the view stays as it is. */
  showLarge(points: readonly FilmPoint[]): void {
    const { projection } = this;
    if (projection === null || points.length === 0) return;
    const places = points.map((point) => toScreen(projection, point));
    const [left, right] = endsOf(places.map(({ x }) => x));
    const [top, bottom] = endsOf(places.map(({ y }) => y));
    const { width, height } = this.plate;
    const factor = LARGE_SHARE * Math.min(width / (right - left), height / (bottom - top));
    if (!(factor > WORTH_MAGNIFYING)) return;
    const middle = toFilm(projection, screenPoint((left + right) / 2, (top + bottom) / 2));
    this.land(middle, screenPoint(width / 2, height / 2), this.view.magnification * factor);
  }

  private land(point: FilmPoint, at: ScreenPoint, magnification: number): void {
    const { film } = this;
    if (film === null) return;
    const sized = keptInSight({ ...this.view, magnification }, film, this.plate);
    this.apply(sized);
    const { projection } = this;
    if (projection === null) return;
    // The map is affine: shifting the centre by the miss brings the point exactly under `at`.
    const under = toFilm(projection, at);
    const centre = filmPoint(
      sized.centre.column + point.column - under.column,
      sized.centre.row + point.row - under.row,
    );
    this.whole = false;
    this.apply(keptInSight({ ...sized, centre }, film, this.plate));
    this.onChanged(this.view, false);
  }

  private apply(view: PlateView): void {
    this.view = view;
    this.surface.setView(view);
  }
}
