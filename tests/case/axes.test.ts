import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axesOnFilm, type DrawnAxis, type FilmAxes } from '../../src/case/axes.ts';
import { type FilmRecord, type MarkShape, recordId } from '../../src/case/document.ts';
import type { Result } from '../../src/geometry/result.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { caseOf, film, free, mark } from './samples.ts';

const at = filmPoint;
const onFilm = (proximal: MarkShape | null, distal: MarkShape | null, overrides: Partial<FilmRecord> = {}) =>
  axesOnFilm(
    caseOf(
      film('film-a', overrides),
      ...(proximal ? [mark('p', 'film-a', 'proximal-axis', proximal)] : []),
      ...(distal ? [mark('d', 'film-a', 'distal-axis', distal)] : []),
    ),
    recordId('film-a'),
  );

const axis = (drawn: FilmAxes['proximal']): DrawnAxis => {
  const result = drawn as Result<DrawnAxis, { readonly kind: string }> | null;
  if (!result?.ok) throw new Error(`no axis: ${JSON.stringify(result)}`);
  return result.value;
};

describe('axes on a film', () => {
  it('have nothing to draw until they are placed', () => {
    expect(onFilm(null, null)).toEqual({ proximal: null, distal: null, angle: null });
    expect(axesOnFilm(caseOf(), recordId('nowhere')).proximal).toBeNull();
  });

  it('run from proximal to distal whichever end was placed first', () => {
    const { proximal, distal } = onFilm(free([0, 600], [0, 1000]), free([0, 500], [0, 100]));
    expect(axis(proximal)).toMatchObject({ from: at(0, 1000), to: at(0, 600) });
    expect(axis(distal)).toMatchObject({ from: at(0, 500), to: at(0, 100) });
  });

  it('meet where their lines cross, with an arc from one to the other', () => {
    // Upright proximal axis on column 100; distal axis along (1, −1) through (150, 450): both lines hold (100, 500).
    const { angle } = onFilm(free([100, 1000], [100, 600]), free([150, 450], [350, 250]));
    expect(angle?.crossing.column).toBeCloseTo(100, 9);
    expect(angle?.crossing.row).toBeCloseTo(500, 9);
    // The arc starts straight up and ends along (1, −1), at one and the same distance.
    const [first, last] = [angle!.arc[0]!, angle!.arc.at(-1)!];
    expect(first.column).toBeCloseTo(100, 9);
    expect(first.row).toBeLessThan(500);
    expect((last.column - 100) / (500 - last.row)).toBeCloseTo(1, 9);
    expect(Math.hypot(last.column - 100, last.row - 500)).toBeCloseTo(500 - first.row, 9);
  });

  it('have no crossing to draw when they are parallel or meet far away', () => {
    expect(onFilm(free([0, 1000], [0, 600]), free([0, 500], [0, 100])).angle).toBeNull();
    // 0.1° apart and 20 columns aside: the lines meet 20 / tan 0.1° = 11,459 columns away.
    const aside = free([20, 500], [20 + 400 * Math.tan((0.1 * Math.PI) / 180), 100]);
    expect(onFilm(free([0, 1000], [0, 600]), aside).angle).toBeNull();
  });

  it('show mid-points and the head circle, as an ellipse where the spacings differ', () => {
    // Rim on a circle of 5 mm about (50 mm, 20 mm); 0.1 mm columns, 0.2 mm rows.
    const rim = [0, 60, 120, 180].map((degrees) => {
      const angle = (degrees * Math.PI) / 180;
      return at((50 + 5 * Math.cos(angle)) / 0.1, (20 - 5 * Math.sin(angle)) / 0.2);
    });
    const { spacing } = film('film-a');
    const { proximal, distal } = onFilm(
      {
        construction: 'canal',
        levels: [
          { one: at(480, 500), other: at(520, 500) },
          { one: at(480, 300), other: at(520, 300) },
        ],
      },
      { construction: 'head', rim, brokenEnd: at(500, 200) },
      { spacing: { ...spacing, rowSpacingMm: 0.2 } as FilmRecord['spacing'] },
    );
    expect(axis(proximal).midPoints).toEqual([at(500, 500), at(500, 300)]);
    const { circle, to } = axis(distal);
    expect(circle?.centre.column).toBeCloseTo(500, 6);
    expect(circle?.centre.row).toBeCloseTo(100, 6);
    expect(circle?.radiusColumns).toBeCloseTo(50, 6);
    expect(circle?.radiusRows).toBeCloseTo(25, 6);
    expect(to.row).toBeCloseTo(100, 6);
  });

  it('say why points make no axis, and draw the other one', () => {
    const { proximal, distal, angle } = onFilm(free([5, 5], [5, 5]), free([0, 500], [0, 100]));
    expect(proximal).toMatchObject({ ok: false, error: { kind: 'points-coincide' } });
    expect(axis(distal).to).toEqual(at(0, 100));
    expect(angle).toBeNull();
  });

  it('pass through the points they were built from, at any spacing', () => {
    const coordinate = fc.double({ min: 0, max: 2000, noNaN: true });
    fc.assert(
      fc.property(
        fc.tuple(coordinate, coordinate, coordinate, coordinate),
        fc.double({ min: 0.05, max: 0.3, noNaN: true }),
        ([a, b, c, d], rowSpacingMm) => {
          fc.pre(Math.hypot(a - c, b - d) > 200);
          const { spacing } = film('film-a');
          const { proximal } = onFilm(free([a, b], [c, d]), null, {
            spacing: { ...spacing, rowSpacingMm } as FilmRecord['spacing'],
          });
          expect(axis(proximal).from.column).toBeCloseTo(a, 6);
          expect(axis(proximal).to.row).toBeCloseTo(d, 6);
        },
      ),
    );
  });
});
