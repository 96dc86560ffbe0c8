import type { Projection } from '../drawing/projection.ts';
import type { FirstPicture } from '../film/film.ts';
import { displayLut, type Light } from '../film/grey-scale.ts';
import { defaultLight } from '../film/light.ts';
import { planeScale } from '../geometry/spacing.ts';
import { toRadians } from '../geometry/units.ts';
import { putGrey } from './grey-pixels.ts';
import {
  columnsPerRow,
  type FilmSize,
  keptInSight,
  type PlateSize,
  type PlateView,
  wholeFilmView,
} from './plate-view.ts';

/**
 * Where a view puts a film, in CSS pixels: mirrored, magnified, then turned about the middle of the plate. The same as
 * the plate's own, which is read from cornerstone; here there is none yet.
 */
export function placeOfFilm(
  { centre, magnification, turn, mirrored }: PlateView,
  film: FilmSize,
  { width, height }: PlateSize,
): Projection {
  const [sin, cos] = [Math.sin(toRadians(turn)), Math.cos(toRadians(turn))];
  const across = mirrored ? -magnification : magnification;
  const down = magnification * columnsPerRow(planeScale(film.spacing));
  const [a, b, c, d] = [cos * across, sin * across, -sin * down, cos * down];
  return {
    a,
    b,
    c,
    d,
    e: width / 2 - a * centre.column - c * centre.row,
    f: height / 2 - b * centre.column - d * centre.row,
  };
}

/**
 * Lays a coarse picture where the film will be.
 *
 * @param light - As the film will be lit; null: as it comes.
 * @param view - As the film will be shown; null: whole.
 * @returns Takes it away.
 */
export function layFirstPicture(
  host: HTMLElement,
  picture: FirstPicture,
  light: Light | null,
  view: PlateView | null,
): () => void {
  const canvas = document.createElement('canvas');
  Object.assign(canvas.style, { position: 'absolute', inset: '0 auto auto 0', transformOrigin: '0 0' });
  paint(canvas, picture, light);
  const place = () => {
    const size = { width: host.clientWidth, height: host.clientHeight };
    if (size.width === 0 || size.height === 0) return;
    const shown = view === null ? wholeFilmView(picture, size) : keptInSight(view, picture, size);
    const { a, b, c, d, e, f } = placeOfFilm(shown, picture, size);
    const { step } = picture;
    // The middle of the first coarse pixel is that of the film's first pixel.
    const from = (1 - step) / 2;
    const [x, y] = [e + (a + c) * from, f + (b + d) * from];
    canvas.style.transform = `matrix(${a * step}, ${b * step}, ${c * step}, ${d * step}, ${x}, ${y})`;
  };
  const resizes = new ResizeObserver(place);
  resizes.observe(host);
  place();
  host.append(canvas);
  return () => {
    resizes.disconnect();
    canvas.remove();
  };
}

function paint(canvas: HTMLCanvasElement, picture: FirstPicture, light: Light | null): void {
  const { level, grey, storedMin, storedMax } = picture;
  const lit = light ?? defaultLight({ ...picture, levels: [level] });
  canvas.width = level.columns;
  canvas.height = level.rows;
  const context = canvas.getContext('2d', { alpha: false });
  // Without one the plate stays dark until the film is whole; the plate itself says what is wrong.
  if (context === null) return;
  const whole = { left: 0, top: 0, right: level.columns, bottom: level.rows };
  putGrey(context, level, whole, displayLut(grey, lit, storedMin, storedMax), 0, 0);
}
