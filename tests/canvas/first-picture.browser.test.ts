import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { FilmSurface } from '../../src/canvas/film-surface.ts';
import { layFirstPicture, placeOfFilm } from '../../src/canvas/first-picture.ts';
import { type PlateView, wholeFilmView } from '../../src/canvas/plate-view.ts';
import { toScreen } from '../../src/drawing/projection.ts';
import type { FirstPicture } from '../../src/film/film.ts';
import { degrees, filmPoint } from '../../src/geometry/units.ts';
import { madeFilm, ratioOnly } from './made-film.ts';

const SIZE = { width: 640, height: 480 };
/** Pixels one and a half times as high as wide. */
const film = madeFilm(1001, 802, () => 0, ratioOnly(1.5));
const views: readonly (readonly [string, PlateView])[] = [
  ['the whole film', wholeFilmView(film, SIZE)],
  ['mirrored and turned by a quarter', wholeFilmView(film, SIZE, degrees(90), true)],
  [
    'a part of it, slanted',
    { centre: filmPoint(321.5, 222.25), magnification: 1.7, turn: degrees(33), mirrored: false },
  ],
];

let host: HTMLElement;

beforeEach(() => {
  host = document.createElement('div');
  Object.assign(host.style, {
    position: 'absolute',
    inset: '0 auto auto 0',
    width: '640px',
    height: '480px',
  });
  document.body.append(host);
});

afterEach(() => host.remove());

describe('the first picture of a film', () => {
  test.each(views)('lies where the plate will draw the film: %s', (_, view) => {
    const surface = new FilmSurface(
      host,
      () => undefined,
      () => undefined,
    );
    surface.setFilm(film, 'place');
    surface.setSize(SIZE, 1);
    surface.setView(view);
    const place = placeOfFilm(view, film, SIZE);
    for (const point of [filmPoint(0, 0), filmPoint(1001, 0), filmPoint(0, 802), filmPoint(500.5, 401)]) {
      const { x, y } = toScreen(surface.projection()!, point);
      const ours = toScreen(place, point);
      expect(ours.x).toBeCloseTo(x, 6);
      expect(ours.y).toBeCloseTo(y, 6);
    }
    surface.destroy();
  });

  test('is laid with the middle of a coarse pixel on that of the film pixel it stands for', () => {
    const pixels = new Uint16Array(251 * 201);
    const { levels: _, ...rest } = film;
    const first: FirstPicture = {
      ...rest,
      storedMax: 4095,
      level: { columns: 251, rows: 201, pixels },
      step: 4,
    };
    const take = layFirstPicture(host, first, null, null);
    const box = host.querySelector('canvas')!.getBoundingClientRect();
    // ITU-T T.800 F.3: sample n of the low-pass stands for sample 2n, twice over.
    const wanted = toScreen(
      placeOfFilm(wholeFilmView(film, SIZE), film, SIZE),
      filmPoint(4 * 100 + 0.5, 4 * 50 + 0.5),
    );
    expect(box.left + ((100 + 0.5) / 251) * box.width).toBeCloseTo(wanted.x, 2);
    expect(box.top + ((50 + 0.5) / 201) * box.height).toBeCloseTo(wanted.y, 2);
    take();
    expect(host.querySelector('canvas')).toBeNull();
  });

  test('is lit as the film comes: its own window, from black to white', () => {
    const pixels = Uint16Array.from([0, 1024, 2048, 4095]);
    const { levels: _, ...rest } = film;
    const first: FirstPicture = {
      ...rest,
      storedMax: 4095,
      level: { columns: 2, rows: 2, pixels },
      step: 512,
    };
    layFirstPicture(host, first, null, null);
    const canvas = host.querySelector('canvas')!;
    const { data } = canvas.getContext('2d')!.getImageData(0, 0, 2, 2);
    // PS3.3 C.11.2.1.2.1 for centre 2048 and width 4096: ((x − 2047.5) / 4095 + 0.5) × 255.
    expect([data[0], data[4], data[8], data[12]]).toEqual([0, 64, 128, 255]);
  });
});
