import { describe, expect, it } from 'vitest';
import type { InventedFilmRequest } from '../../src/phantom/spec.ts';
import { parseSpec } from '../../src/phantom/spec.ts';
import { filmOf, truthOf } from './make.ts';

const GRID = { pitchMm: 12, diameterMm: 2 } as const;

/** A wide open beam round one bone, hard enough that discs are the only dense spots; no processing. */
const request = (kind: 'cone' | 'parallel'): InventedFilmRequest => ({
  beam: { kind },
  exposure: { energyKev: 60, photonsPerPixel: 1e6, scatterShare: 0, blurMm: 0 },
  film: { columns: 420, rows: 500, pitchMm: 0.25, detail: 0, evenness: 0, framing: 'metacarpals' },
  extras: { marker: false, onlyRay: 'middle', markerGrid: GRID },
});

/** Grey that three quarters of a pixel's cover reach, and no single bone. */
const OPAQUE = 3300;

interface Spot {
  readonly column: number;
  readonly row: number;
  readonly area: number;
}

/** Connected spots of nearly opaque pixels, each with its centroid: found from the pixels alone. */
function spotsOf(film: { pixels: Uint16Array; columns: number; rows: number }): Spot[] {
  const { pixels, columns, rows } = film;
  const seen = new Uint8Array(pixels.length);
  const spots: Spot[] = [];
  for (let start = 0; start < pixels.length; start += 1) {
    if (seen[start] === 1 || pixels[start]! < OPAQUE) continue;
    const stack = [start];
    seen[start] = 1;
    let [area, x, y] = [0, 0, 0];
    for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
      const [column, row] = [at % columns, Math.floor(at / columns)];
      area += 1;
      x += column + 0.5;
      y += row + 0.5;
      for (const [dx, dy] of [
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ] as const) {
        const [c, r] = [column + dx, row + dy];
        if (c < 0 || r < 0 || c >= columns || r >= rows) continue;
        const next = r * columns + c;
        if (seen[next] === 1 || pixels[next]! < OPAQUE) continue;
        seen[next] = 1;
        stack.push(next);
      }
    }
    spots.push({ column: x / area, row: y / area, area });
  }
  return spots;
}

describe('a grid of lead discs', () => {
  it.each(['cone', 'parallel'] as const)(
    'stands at the stated pitch over the whole film, %s beam',
    (kind) => {
      const film = filmOf(request(kind), 2);
      const spots = spotsOf(film);
      // 105 by 125 mm of film: whole discs of 2 mm at 12 mm, one in the middle, four to each side and five up and down.
      expect(spots).toHaveLength(9 * 11);
      expect(film.truth.markerGrid).toMatchObject({ columns: 9, rows: 11, plane: 'detector', ...GRID });
      // 12 mm in pixels of 0.25 mm: the discs lie on the detector, so neither beam magnifies.
      const pitch = 48;
      expect(film.truth.markerGrid!.pitchPixels).toBeCloseTo(pitch, 9);
      const { centre } = film.truth.markerGrid!;
      for (const { column, row } of spots) {
        const [i, j] = [(column - centre.column) / pitch, (row - centre.row) / pitch];
        expect(Math.abs(i - Math.round(i)) * pitch).toBeLessThan(0.25);
        expect(Math.abs(j - Math.round(j)) * pitch).toBeLessThan(0.25);
      }
      // A circle of 2 mm across has 50.3 pixels of 0.25 mm; those cut by its edge count in part.
      const area = spots.reduce((sum, spot) => sum + spot.area, 0) / spots.length;
      expect(area).toBeGreaterThan(36);
      expect(area).toBeLessThan(58);
    },
  );

  it('is not there unless asked for, and moves nothing', () => {
    const without = { ...request('cone'), extras: { marker: false, onlyRay: 'middle' as const } };
    const film = filmOf(without, 2);
    expect(spotsOf(film)).toEqual([]);
    expect(film.truth).not.toHaveProperty('markerGrid');
    expect(JSON.stringify(film.truth)).not.toMatch(/markerGrid|growthPlate|openGrowthPlates/i);
    const { spec, markerGrid, ...rest } = truthOf(request('cone'), 2);
    const { spec: _, ...plain } = film.truth;
    expect(rest).toEqual(plain);
    expect(markerGrid).toBeDefined();
    expect(spec.extras.markerGrid).toEqual(GRID);
  });

  it('is refused where its discs would touch, with the field', () => {
    const parsed = parseSpec({ extras: { markerGrid: { pitchMm: 4, diameterMm: 4 } } });
    expect(parsed.ok ? [] : parsed.error.problems.map(({ field }) => field)).toEqual([
      'extras.markerGrid.diameterMm',
    ]);
  });
});
