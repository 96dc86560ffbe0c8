import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type KnownObject, pooledScale, scaleFromObject } from '../../src/geometry/known-size.ts';
import { parseGiveOrTake, parseSize, sizeFailureSentence } from '../../src/geometry/typed-size.ts';
import { filmPoint, millimetres } from '../../src/geometry/units.ts';
import { errorOf, normalDeviates, placed, simulate, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const texts = workedExamples('size-text', z.object({ text: z.string() }));

describe('size typed with its unit', () => {
  it.each(texts)('$name', (example) => {
    expectAsPrinted(example, { value: unwrap(parseSize(example.given.text)) });
  });

  it.each([
    ['', 'size-without-number'],
    ['mm', 'size-without-number'],
    ['-24 mm', 'size-without-number'],
    ['24 mm; 3', 'size-without-number'],
    ['12 + 12 mm', 'size-without-number'],
    ['1/2 in', 'size-without-number'],
    ['1.234.5 mm', 'size-without-number'],
    ['24', 'size-without-unit'],
    ['24 foo', 'size-unit-unknown'],
    ['24 constructor', 'size-unit-unknown'],
    ['24 kg', 'size-not-a-length'],
    ['1 mm', 'size-out-of-range'],
    ['24 m', 'size-out-of-range'],
    ['0 mm', 'size-out-of-range'],
  ])('does not take "%s" (%s)', (text, kind) => {
    expect(errorOf(parseSize(text))).toMatchObject({ kind, text });
    // Whatever was typed, the sentence says what to type instead.
    expect(sizeFailureSentence(errorOf(parseSize(text)))).toMatch(/such as 24 mm|Check the number/);
  });

  it('takes a small give or take, and nothing typed for none', () => {
    // The inch is 25.4 mm by definition (international yard and pound agreement, 1959).
    expect(unwrap(parseGiveOrTake('0.1 in'))).toBeCloseTo(2.54, 12);
    expect(unwrap(parseGiveOrTake('0,05 mm'))).toBeCloseTo(0.05, 12);
    expect(unwrap(parseGiveOrTake('  '))).toBe(0);
    expect(errorOf(parseGiveOrTake('0.1'))).toMatchObject({ kind: 'size-without-unit' });
    expect(errorOf(parseGiveOrTake('60 mm'))).toMatchObject({ kind: 'size-out-of-range', largest: 50 });
  });
});

const pair = z.tuple([z.number(), z.number()]);
const objects = workedExamples(
  'scale-from-object',
  z.object({
    size: z.number(),
    round: z.array(pair).optional(),
    straight: z.tuple([pair, pair]).optional(),
    rowToColumn: z.number(),
  }),
);

describe('scale from an object of known size', () => {
  const film = ([column, row]: readonly [number, number]) => filmPoint(column, row);
  const known = {
    size: millimetres(24),
    sizeRelativeUncertainty: 0,
    description: 'a disc of 24 mm',
    plane: 'patient',
  } as const;

  it.each(objects)('$name', (example) => {
    const { size, round, straight, rowToColumn } = example.given;
    const object: KnownObject =
      straight === undefined
        ? { kind: 'round', rim: (round ?? []).map(film) }
        : { kind: 'straight', from: film(straight[0]), to: film(straight[1]) };
    const spacing = unwrap(
      scaleFromObject(object, { ...known, size: millimetres(size) }, rowToColumn, placed(0.5)),
    );
    expectAsPrinted(example, {
      column: spacing.columnSpacingMm,
      row: spacing.rowSpacingMm,
      relative: spacing.relativeStandardUncertainty,
    });
    expect(spacing).toMatchObject({ origin: 'object-of-known-size', plane: 'patient' });
  });

  it('adds the object’s own uncertainty in quadrature', () => {
    const straight: KnownObject = { kind: 'straight', from: filmPoint(0, 0), to: filmPoint(300, 0) };
    const spacing = unwrap(
      scaleFromObject(
        straight,
        { ...known, sizeRelativeUncertainty: 0.03 },
        1,
        placed((0.04 * 24) / Math.SQRT2),
      ),
    );
    expect(spacing.relativeStandardUncertainty).toBeCloseTo(0.05, 9); // 3 %, 4 % -> 5 %
  });

  const across = (columns: number, size: number) =>
    unwrap(
      scaleFromObject(
        { kind: 'straight', from: filmPoint(0, 0), to: filmPoint(columns, 0) },
        { ...known, size: millimetres(size) },
        2,
        placed(0.5),
      ),
    );

  it('pools two objects: pixels on known length, a line through the origin', () => {
    const agreeing = pooledScale([across(240, 24), across(500, 50)]);
    expect(agreeing.columnSpacingMm).toBeCloseTo(0.1, 12);
    expect(agreeing.rowSpacingMm).toBeCloseTo(0.2, 12);
    // Each length is placed to √2 · 0.5 mm: that over √(24² + 50²) mm, less than 50 mm alone would give.
    expect(agreeing.relativeStandardUncertainty).toBeCloseTo((Math.SQRT2 * 0.5) / Math.hypot(24, 50), 12);
    expect(agreeing.disagree).toBe(false);
  });

  it('says when two objects differ by more than placing explains, and trusts neither more than that', () => {
    // 24 mm over 240 pixels, 50 mm over 600: (24² · 10 + 50² · 12) / (24² + 50²) = 11.62549 pixels per mm.
    const apart = pooledScale([across(240, 24), across(600, 50)]);
    expect(apart.columnSpacingMm).toBeCloseTo(1 / 11.62549, 7);
    expect(apart.disagree).toBe(true);
    // Residuals −39.0117 and 18.7256 pixels, s = 43.2733; over 11.62549 and √3076 mm.
    expect(apart.relativeStandardUncertainty).toBeCloseTo(43.2733 / 11.62549 / Math.hypot(24, 50), 5);
    // χ² of one degree of freedom passes 3.84 once in twenty (table of the chi-square distribution): a difference of
    // 1.96 · √(0.029463² + 0.014142²) = 6.4 % of the columns per mm.
    expect(pooledScale([across(240, 24), across(500 * 1.06, 50)]).disagree).toBe(false);
    expect(pooledScale([across(240, 24), across(500 * 1.07, 50)]).disagree).toBe(true);
  });

  it('pools by how surely each is known: the scatter of simulated pools is what they state', () => {
    const deviate = normalDeviates(90);
    const spread = simulate(4000, () => {
      const placedAcross = (size: number) => across(10 * size + Math.SQRT2 * 5 * deviate(), size);
      return pooledScale([placedAcross(24), placedAcross(50)]).columnSpacingMm;
    });
    expect(spread.mean).toBeCloseTo(0.1, 3);
    const stated = 0.1 * ((Math.SQRT2 * 0.5) / Math.hypot(24, 50));
    // The standard error of an SD from 4000 draws is 1.1 %.
    expect(Math.abs(spread.sd / stated - 1)).toBeLessThan(0.04);
  });

  it('refuses an object too small on the film, and rim points that fix no circle', () => {
    const tiny: KnownObject = { kind: 'straight', from: filmPoint(0, 0), to: filmPoint(19, 0) };
    expect(errorOf(scaleFromObject(tiny, known, 1, placed(0.5)))).toEqual({
      kind: 'object-too-small',
      columns: 19,
      neededColumns: 20,
    });
    const flat: KnownObject = { kind: 'round', rim: [filmPoint(0, 0), filmPoint(50, 0), filmPoint(99, 0)] };
    expect(errorOf(scaleFromObject(flat, known, 1, placed(0.5))).kind).toBe('circle-not-defined');
  });
});
