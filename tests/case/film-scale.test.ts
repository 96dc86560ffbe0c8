import { describe, expect, it } from 'vitest';
import type { FilmRecord, MarkShape } from '../../src/case/document.ts';
import {
  filmFollowing,
  type ObjectSize,
  withObjectScale,
  withoutMagnification,
  withoutScale,
} from '../../src/case/film-scale.ts';
import type { Spacing } from '../../src/geometry/spacing.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { caseOf, failed, film, mark, settings, succeeded } from './samples.ts';

const ratio: Spacing = { kind: 'ratio', rowToColumn: 1.25, origin: 'PixelAspectRatio', conflicts: [] };
const disc: ObjectSize = { sizeMm: 24, sizeRelativeUncertainty: 0, plane: 'patient', typed: '24 mm' };
const acrossColumns = (columns: number): MarkShape => ({
  construction: 'segment',
  from: filmPoint(100, 200),
  to: filmPoint(100 + columns, 200),
});
const object = (shape: MarkShape) => mark('film-1/scale-object', 'film-1', 'scale-object', shape);
const mm = ({ spacing }: FilmRecord) => {
  if (spacing.kind !== 'millimetres') throw new Error('no millimetres');
  return spacing;
};

describe('scale by an object of known size', () => {
  it('gives millimetres to a film without any and keeps the shape of its pixels', () => {
    // 24 mm over 240 columns: 0.1 mm; rows 1.25 times as long.
    const scaled = succeeded(
      withObjectScale(film('film-1', { spacing: ratio }), object(acrossColumns(240)), disc, settings()),
    );
    expect(mm(scaled).columnSpacingMm).toBeCloseTo(0.1, 12);
    expect(mm(scaled).rowSpacingMm).toBeCloseTo(0.125, 12);
    // JCGM 100:2008, 5.1.2: two ends of 0.5 mm each on 24 mm, √2 · 0.5 / 24.
    expect(mm(scaled).relativeStandardUncertainty).toBeCloseTo((Math.SQRT2 * 0.5) / 24, 12);
    expect(withoutScale(scaled)).toEqual(film('film-1', { spacing: ratio }));
  });

  it('takes a circle through the rim, square by square where pixels are square', () => {
    const rim = [0, 90, 200].map((turn) =>
      filmPoint(500 + 120 * Math.cos((turn * Math.PI) / 180), 500 + 120 * Math.sin((turn * Math.PI) / 180)),
    );
    const square: Spacing = { ...ratio, rowToColumn: 1, origin: 'assumed-square' };
    const scaled = succeeded(
      withObjectScale(
        film('film-1', { spacing: square }),
        object({ construction: 'circle', rim }),
        disc,
        settings(),
      ),
    );
    expect(mm(scaled).columnSpacingMm).toBeCloseTo(24 / 240, 9);
  });

  it('carries coarse pixels and the object’s own spread into its uncertainty', () => {
    // 24 mm over 24 columns, 1 mm each; compressed with loss no point is placed better than a pixel.
    const coarse = film('film-1', { spacing: { ...ratio, rowToColumn: 1 }, lossy: true });
    const scaled = succeeded(
      withObjectScale(
        coarse,
        object(acrossColumns(24)),
        { ...disc, sizeRelativeUncertainty: 0.03 },
        settings(),
      ),
    );
    expect(mm(scaled).relativeStandardUncertainty).toBeCloseTo(Math.hypot(Math.SQRT2 / 24, 0.03), 9);
  });

  it('says when the file cannot be right as well, and only then', () => {
    // 0.1 mm at the detector is 0.097 to 0.099 mm at the bone: 245 columns of 24 mm are explained, 200 are not.
    const onDetector = film('film-1');
    const agreeing = withObjectScale(onDetector, object(acrossColumns(245)), disc, settings());
    expect(mm(succeeded(agreeing)).conflicts).toEqual([]);
    // 255 columns make 0.0941 mm, 6.3 % less: 3.1 % of magnification and twice 2.9 % of placing (0.5·√2 of 24 mm).
    const unsure = withObjectScale(onDetector, object(acrossColumns(255)), disc, settings());
    expect(mm(succeeded(unsure)).conflicts).toEqual([]);
    const other = withObjectScale(onDetector, object(acrossColumns(200)), disc, settings());
    // 0.1 against 24/200 = 0.12 mm: 17 % less.
    expect(mm(succeeded(other)).conflicts).toEqual([
      'The file says 0.100 mm per column, 17 % less than the object of known size gives; the object is used.',
    ]);
  });

  it('follows the object when it is moved, and leaves with it', () => {
    const scaled = succeeded(
      withObjectScale(film('film-1', { spacing: ratio }), object(acrossColumns(240)), disc, settings()),
    );
    const document = caseOf(scaled, object(acrossColumns(240)));
    const moved = filmFollowing(document, object(acrossColumns(300)), false);
    expect(mm(moved!).columnSpacingMm).toBeCloseTo(24 / 300, 12);
    expect(filmFollowing(document, object(acrossColumns(3)), false)?.spacing).toEqual(ratio);
    expect(filmFollowing(document, object(acrossColumns(240)), true)?.spacing).toEqual(ratio);
    const other = mark('film-1/length', 'film-1', 'length', acrossColumns(240));
    expect(filmFollowing(document, other, false)).toBeNull();
  });

  const further = (columns: number) =>
    mark('film-1/scale-object-2', 'film-1', 'scale-object-2', acrossColumns(columns));
  const both: ObjectSize = {
    ...disc,
    further: { sizeMm: 50, sizeRelativeUncertainty: 0, typed: '50 mm' },
  };
  const byBoth = (columns: number) =>
    succeeded(
      withObjectScale(
        film('film-1', { spacing: ratio }),
        object(acrossColumns(240)),
        both,
        settings(),
        further(columns),
      ),
    );

  it('rests on a second known length too, and says when the two disagree', () => {
    const agreeing = mm(byBoth(505));
    // Pixels on length through the origin: (24 · 240 + 50 · 505) / (24² + 50²) = 10.08127 columns per mm.
    expect(agreeing.columnSpacingMm).toBeCloseTo(1 / 10.08127, 7);
    expect(agreeing.rowSpacingMm).toBeCloseTo(1.25 / 10.08127, 6);
    expect(agreeing.conflicts).toEqual([]);
    expect(agreeing.calibrationDescription).toBe('objects of 24 mm and 50 mm');
    // 50 mm over 600 columns are 0.083 mm each, 17 % less than 24 mm over 240.
    const [sentence, ...more] = mm(byBoth(600)).conflicts;
    expect(more).toEqual([]);
    expect(sentence).toMatch(
      /^The two known lengths disagree: 24 mm gives 0\.100 mm per column and 50 mm gives 0\.083 mm, 17 % apart/,
    );
  });

  it('follows each of the two, and goes back to the first when the second leaves', () => {
    const scaled = byBoth(500);
    const document = caseOf(scaled, object(acrossColumns(240)), further(500));
    expect(mm(filmFollowing(document, further(600), false)!).conflicts).toHaveLength(1);
    expect(mm(filmFollowing(document, object(acrossColumns(300)), false)!).conflicts).toHaveLength(1);
    const alone = filmFollowing(document, further(500), true)!;
    expect(mm(alone).columnSpacingMm).toBeCloseTo(0.1, 12);
    expect(alone.scale).not.toHaveProperty('further');
    expect(filmFollowing(document, object(acrossColumns(240)), true)?.spacing).toEqual(ratio);
    expect(filmFollowing(caseOf(scaled, further(500)), further(400), false)).toBeNull();
    // Placed and not yet given a size, it moves nothing.
    const first = succeeded(
      withObjectScale(film('film-1', { spacing: ratio }), object(acrossColumns(240)), disc, settings()),
    );
    expect(filmFollowing(caseOf(first, object(acrossColumns(240))), further(500), false)).toBeNull();
  });

  it('refuses an object too small, and a mark of another role', () => {
    const small = withObjectScale(film('film-1'), object(acrossColumns(19)), disc, settings());
    expect(failed(small)).toMatchObject({ kind: 'object-too-small' });
    const length = mark('film-1/length', 'film-1', 'length', acrossColumns(240));
    expect(failed(withObjectScale(film('film-1'), length, disc, settings())).kind).toBe('not-a-scale-object');
  });
});

describe('estimated magnification', () => {
  const stated = (factor: number | null) => {
    const { spacing, ...rest } = film('film-1');
    if (spacing.kind !== 'millimetres') throw new Error('no millimetres');
    return { ...rest, spacing: { ...spacing, estimatedMagnification: factor } };
  };

  it('divides the spacing, once, and can be taken back', () => {
    const divided = withoutMagnification(stated(1.05))!;
    // PS3.3 C.8.11.2: the factor is source-image over source-object distance, so the object is 1/1.05 as large.
    expect(mm(divided).columnSpacingMm).toBeCloseTo(0.1 / 1.05, 12);
    expect(mm(divided).plane).toBe('patient');
    // ±0.01 uniform: 0.01/√3 of 1.05 (JCGM 100:2008, 4.3.7).
    expect(mm(divided).relativeStandardUncertainty).toBeCloseTo(0.01 / Math.sqrt(3) / 1.05, 12);
    expect(mm(withoutMagnification(divided)!).columnSpacingMm).toBeCloseTo(0.1 / 1.05, 12);
    expect(withoutScale(divided)).toEqual(stated(1.05));
    const thirds = withoutMagnification(stated(64 / 63))!;
    expect(mm(thirds).calibrationDescription).toBe('divided by the estimated magnification of 1.0159');
  });

  it('is offered only where the file states one', () => {
    expect(withoutMagnification(stated(null))).toBeNull();
    expect(withoutMagnification(film('film-1', { spacing: ratio }))).toBeNull();
  });
});
