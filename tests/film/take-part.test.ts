import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { nodeFilmTools } from '../../src/cli/node-film-tools.ts';
import { assembleFilm, pictureGreyScale } from '../../src/film/assemble.ts';
import type { Film, StoredPixels } from '../../src/film/film.ts';
import { readFilm } from '../../src/film/read-film.ts';
import { SQUARE_PIXELS } from '../../src/film/spacing.ts';
import { takePart } from '../../src/film/take-part.ts';
import { cornersToPicture } from '../../src/geometry/film-part.ts';
import { type Corners, throughHomography } from '../../src/geometry/homography.ts';
import { straightening } from '../../src/geometry/slant.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { errorOf, unwrap } from '../geometry/support.ts';
import { sharedFilms } from '../shared-films.ts';

const facts: Film['facts'] = {
  format: 'png',
  modality: null,
  sopClassUid: null,
  transferSyntaxUid: null,
  viewPosition: null,
  laterality: null,
  patientOrientation: null,
  lossy: null,
  burnedIn: null,
  wasColour: false,
  notes: [],
};

const filmOf = (columns: number, rows: number, pixels: StoredPixels): Film =>
  assembleFilm({ columns, rows, pixels }, pictureGreyScale(16), SQUARE_PIXELS, facts);

/** A film whose values are a plane in column and row: what bilinear sampling keeps exactly. */
const ramp = (columns: number, rows: number): Film => {
  const pixels = new Uint16Array(columns * rows);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) pixels[row * columns + column] = 20 * column + 7 * row;
  return filmOf(columns, rows, pixels);
};

describe('a rectangle of a film', () => {
  it('has the stored values of that rectangle, and its own range', () => {
    const part = unwrap(
      takePart(ramp(40, 30), { kind: 'rectangle', column: 5, row: 3, columns: 4, rows: 2 }),
    );
    expect([...part.levels[0]!.pixels]).toEqual([
      121,
      141,
      161,
      181, // 20·5 + 7·3 = 121, and 20 more from column to column
      128,
      148,
      168,
      188,
    ]);
    expect([part.columns, part.rows, part.storedMin, part.storedMax]).toEqual([4, 2, 121, 188]);
  });

  it('keeps spacing, frame and signed values', () => {
    const signed = filmOf(3, 1, Int16Array.of(-5, -4, 9));
    const spacing = { ...SQUARE_PIXELS, rowToColumn: 1.2 };
    const part = unwrap(
      takePart(
        { ...signed, spacing, frame: { index: 2, count: 4 } },
        { kind: 'rectangle', column: 1, row: 0, columns: 2, rows: 1 },
      ),
    );
    expect(part.levels[0]!.pixels).toEqual(Int16Array.of(-4, 9));
    expect(part.spacing).toEqual(spacing);
    expect(part.frame).toEqual({ index: 2, count: 4 });
  });

  it('is refused where it does not lie on the film', () => {
    const outside = { kind: 'rectangle', column: 30, row: 0, columns: 11, rows: 5 } as const;
    expect(errorOf(takePart(ramp(40, 30), outside))).toEqual({
      kind: 'part-not-in-picture',
      columns: 40,
      rows: 30,
    });
  });
});

describe('a straightened film', () => {
  it('shows at each pixel what the picture shows there', () => {
    const corners: Corners = [filmPoint(20, 15), filmPoint(170, 25), filmPoint(160, 130), filmPoint(30, 120)];
    const { part } = unwrap(straightening(corners, 1.4));
    const film = unwrap(takePart(ramp(200, 150), part));
    const map = unwrap(cornersToPicture(part));
    for (const [column, row] of [
      [0, 0],
      [part.columns - 1, 0],
      [60, 40],
      [part.columns - 1, part.rows - 1],
    ] as const) {
      const at = throughHomography(map, filmPoint(column + 0.5, row + 0.5));
      // Pixel centres are at +0.5, so the value of the plane at a point is 20·(column − 0.5) + 7·(row − 0.5).
      const wanted = 20 * (at.x - 0.5) + 7 * (at.y - 0.5);
      expect(Math.abs(film.levels[0]!.pixels[row * part.columns + column]! - wanted)).toBeLessThanOrEqual(
        0.51,
      );
    }
    expect(film.spacing.kind).toBe('ratio');
  });
});

describe('the plate with two exposures', () => {
  it('gives two films that together hold the values of the plate', async () => {
    const path = sharedFilms('hands', 'IMG0002265.jpg');
    if (path === null) throw new Error('This test needs the real films; set RAYBEND_FILMS to their folder.');
    const whole = unwrap(await readFilm(readFileSync(path), nodeFilmTools));
    expect([whole.columns, whole.rows]).toEqual([454, 373]); // the manifest of the films
    const left = unwrap(takePart(whole, { kind: 'rectangle', column: 0, row: 0, columns: 227, rows: 373 }));
    const right = unwrap(
      takePart(whole, { kind: 'rectangle', column: 227, row: 0, columns: 227, rows: 373 }),
    );
    const sum = (film: Film) => Array.from(film.levels[0]!.pixels).reduce((total, value) => total + value, 0);
    expect(sum(left) + sum(right)).toBe(sum(whole));
  });
});
