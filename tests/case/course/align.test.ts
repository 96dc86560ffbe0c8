import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alignedPair, mirroredUpright, type Upright, uprightFilm } from '../../../src/case/course/align.ts';
import type { FilmRecord } from '../../../src/case/document.ts';
import { type FilmPoint, filmPoint } from '../../../src/geometry/units.ts';
import { caseOf, film, free, mark } from '../samples.ts';

const placed = ({ a, b, c, d, e, f }: Upright, { column, row }: FilmPoint) => ({
  x: a * column + c * row + e,
  y: b * column + d * row + f,
});

const spacing = (row: number, column: number): Partial<FilmRecord> => ({
  spacing: { ...film('x').spacing, rowSpacingMm: row, columnSpacingMm: column } as FilmRecord['spacing'],
});

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A film whose proximal axis begins anywhere and points anywhere, with pixels of any shape. */
const anyFilm = fc.record({
  from: fc.tuple(number(0, 900), number(0, 900)),
  turn: number(0, 2 * Math.PI),
  length: number(100, 400),
  row: number(0.05, 0.4),
  column: number(0.05, 0.4),
});

const uprightOf = ({
  from,
  turn,
  length,
  row,
  column,
}: typeof anyFilm extends fc.Arbitrary<infer T> ? T : never) => {
  const to = [from[0] + length * Math.cos(turn), from[1] + length * Math.sin(turn)] as const;
  const document = caseOf(film('f', spacing(row, column)), mark('p', 'f', 'proximal-axis', free(from, to)));
  return { upright: uprightFilm(document, 'f' as never)!, from: filmPoint(...from), to: filmPoint(...to) };
};

describe('a film with its proximal axis upright', () => {
  it('has the axis straight above its start, as long as in the plane, and its end at the origin', () => {
    fc.assert(
      fc.property(anyFilm, (made) => {
        const { upright, from, to } = uprightOf(made);
        const [start, end] = [placed(upright, from), placed(upright, to)];
        const lengthMm = Math.hypot((to.column - from.column) * made.column, (to.row - from.row) * made.row);
        expect(start.x).toBeCloseTo(0, 6);
        expect(start.y).toBeCloseTo(lengthMm, 6);
        expect(end.x).toBeCloseTo(0, 6);
        expect(end.y).toBeCloseTo(0, 6);
      }),
    );
  });

  it('is not mirrored: the map keeps its sense of turning, whatever the shape of the pixels', () => {
    fc.assert(
      fc.property(anyFilm, (made) => {
        const { a, b, c, d } = uprightOf(made).upright;
        expect(a * d - b * c).toBeCloseTo(made.row * made.column, 9);
      }),
    );
  });

  it('has the marked level of the fracture at the origin, else the near end of the distal axis', () => {
    const records = [
      film('f'),
      mark('p', 'f', 'proximal-axis', free([500, 900], [500, 600])),
      mark('d', 'f', 'distal-axis', free([520, 550], [600, 400])),
    ];
    const upright = uprightFilm(caseOf(...records), 'f' as never)!;
    expect(upright.anchor).toBe('distal-fragment');
    // 550 rows lie 50 pixels of 0.1 mm above the end of the axis: the origin is the foot of (520, 550) on it.
    expect(placed(upright, filmPoint(500, 550))).toEqual({
      x: expect.closeTo(0, 6),
      y: expect.closeTo(0, 6),
    });
    const level = mark('l', 'f', 'fracture-level', {
      construction: 'segment',
      from: filmPoint(480, 590),
      to: filmPoint(520, 570),
    });
    const atLevel = uprightFilm(caseOf(...records, level), 'f' as never)!;
    expect(atLevel.anchor).toBe('fracture-level');
    expect(placed(atLevel, filmPoint(500, 580)).y).toBeCloseTo(0, 6);
  });

  it('is none without a proximal axis', () => {
    expect(uprightFilm(caseOf(film('f')), 'f' as never)).toBeNull();
  });
});

describe('two films laid on one another', () => {
  const upright = (dorsalColumn: number, about: Partial<FilmRecord> = {}): Upright =>
    uprightFilm(
      caseOf(
        film('f', about),
        mark('p', 'f', 'proximal-axis', free([500, 900], [500, 600])),
        mark('s', 'f', 'dorsal-side', { construction: 'point', at: filmPoint(dorsalColumn, 700) }),
      ),
      'f' as never,
    )!;

  it('are mirrored only when dorsal lies on opposite sides', () => {
    expect(alignedPair(upright(300), upright(350)).mirrored).toBe(false);
    const pair = alignedPair(upright(300), upright(700));
    expect(pair.mirrored).toBe(true);
    expect(pair.second.side).toBe(pair.first.side);
    expect(placed(pair.second, filmPoint(700, 700)).x).toBeCloseTo(
      placed(pair.first, filmPoint(300, 700)).x,
      6,
    );
    expect(mirroredUpright(mirroredUpright(upright(300)))).toEqual(upright(300));
  });

  it('have one scale: millimetres where both have them, else the length of the proximal axis', () => {
    expect(alignedPair(upright(300), upright(300)).rescaled).toBe(false);
    const ratio: Partial<FilmRecord> = {
      spacing: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
    };
    const pair = alignedPair(upright(300), upright(300, ratio));
    expect(pair.rescaled).toBe(true);
    // 300 pixels of 0.1 mm: both axes are 30 mm long in the frame.
    expect(pair.second.proximalLength).toBeCloseTo(30, 6);
    expect(placed(pair.second, filmPoint(500, 900)).y).toBeCloseTo(30, 6);
  });
});
