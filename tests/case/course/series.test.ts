import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/case/assess.ts';
import type { CaseRecord, FilmRecord } from '../../../src/case/document.ts';
import { SHIPPED_LIMIT_SETS } from '../../../src/tolerance/limit-sets.ts';
import { caseOf, film, free, injury, mark, settings } from '../samples.ts';

const radians = (degrees: number) => (degrees * Math.PI) / 180;

/** A lateral film: the proximal axis 40 mm straight up, the distal axis 30 mm turned by `apart` degrees. */
function bent(id: string, apart: number, about: Partial<FilmRecord>, marked = true): readonly CaseRecord[] {
  const [sine, cosine] = [Math.sin(radians(apart)), Math.cos(radians(apart))];
  return [
    film(id, about),
    mark(`${id}/p`, id, 'proximal-axis', free([1000, 2000], [1000, 1600])),
    mark(`${id}/d`, id, 'distal-axis', free([1000, 1500], [1000 + 300 * sine, 1500 - 300 * cosine])),
    ...(marked
      ? [
          mark(`${id}/s`, id, 'dorsal-side', {
            construction: 'point',
            at: { column: 400, row: 1700 } as never,
          }),
        ]
      : []),
  ];
}

/*
 * Axes of 40 and 30 mm, each coordinate placed to 0.5 mm: u = 0.5·√2·√(1/40² + 1/30²) rad = 1.68810°
 * (docs/measurements/uncertainty.md), so the smallest detectable change is 1.96·√2·1.68810° = 4.67913°.
 */
const SMALLEST = 4.67913;

const courseOf = (...records: readonly (readonly CaseRecord[])[]) =>
  assess(
    caseOf(injury(), settings({ limitSetIds: ['textbook-chapter'] }), ...records.flat()),
    SHIPPED_LIMIT_SETS,
  );

describe('one injury over time', () => {
  it('is in the order of days and moments, whatever the order in which films were added', () => {
    const { course } = courseOf(
      bent('week', 30, { day: 7, moment: 'follow-up' }),
      bent('no-day', 30, { day: null }),
      bent('after', 20, { day: 0, moment: 'after-reduction' }),
      bent('before', 50, { day: 0, moment: 'before-reduction' }),
    );
    expect(course).toHaveLength(1);
    expect(course[0]!.points.map(({ film: { id } }) => id)).toEqual(['before', 'after', 'week', 'no-day']);
    expect(course[0]!.points.map(({ name }) => name)).toEqual([
      'lateral film of day 0, before reduction',
      'lateral film of day 0, after reduction',
      'lateral film of day 7',
      'undated lateral film',
    ]);
    // Without a day there is no earlier and later.
    expect(course[0]!.points[3]).toMatchObject({ sinceLast: null, sinceReduction: null });
  });

  it('calls a change only what exceeds the smallest detectable one', () => {
    const by = (degrees: number) => {
      const { course } = courseOf(bent('a', 30, { day: 0 }), bent('b', 30 + degrees, { day: 7 }));
      return course[0]!.points[1]!.sinceLast!;
    };
    expect(by(4).smallestDetectable).toBeCloseTo(SMALLEST, 4);
    expect(by(SMALLEST - 0.01).verdict).toBe('not-told');
    expect(by(SMALLEST + 0.01).verdict).toBe('worse');
    expect(by(-SMALLEST + 0.01).verdict).toBe('not-told');
    expect(by(-SMALLEST - 0.01).verdict).toBe('better');
    expect(by(4).words).toBe('4° more: too small to call a change (from 5° on)');
    expect(by(-12).words).toBe('12° less: a change, straighter');
  });

  it('takes more for a change where the placing error comes from few repeats', () => {
    const own = settings({
      limitSetIds: ['textbook-chapter'],
      placingErrorMm: 0.5,
      placingErrorDegreesOfFreedom: 10,
    });
    const films = [...bent('a', 30, { day: 0 }), ...bent('b', 35, { day: 7 })];
    const { course } = assess(caseOf(injury(), own, ...films), SHIPPED_LIMIT_SETS);
    // Soong 2004, table A.4: t of 10 degrees of freedom 2.228, in place of 1.96.
    expect(course[0]!.points[1]!.sinceLast!.smallestDetectable / SMALLEST).toBeCloseTo(2.228 / 1.96, 3);
    expect(course[0]!.points[1]!.sinceLast!.verdict).toBe('not-told');
  });

  it('calls a bend that went over to the other side no straighter one', () => {
    const { course } = courseOf(bent('a', -20, { day: 0 }), bent('b', 18, { day: 7 }));
    expect(course[0]!.points[1]!.sinceLast!.words).toBe('38° more: a change, now to the other side');
  });

  it('never compares axes that were drawn in different ways, nor different views', () => {
    const canal: readonly CaseRecord[] = [
      film('b', { day: 7 }),
      mark('b/p', 'b', 'proximal-axis', {
        construction: 'canal',
        levels: [2000, 1600].map((row) => ({
          one: { column: 980, row } as never,
          other: { column: 1020, row } as never,
        })),
      }),
      mark('b/d', 'b', 'distal-axis', free([1000, 1500], [1300, 1500])),
    ];
    const { course, cautions } = courseOf(bent('a', 30, { day: 0 }), canal);
    expect(course[0]!.points[1]!.sinceLast!.verdict).toBe('drawn-differently');
    expect(cautions.map(({ id }) => id)).toContain('films-drawn-differently');
    const views = courseOf(bent('a', 30, { day: 0 }), bent('b', 60, { day: 7, view: 'pa' }, false)).course;
    expect(views.map(({ id }) => id)).toEqual(['angulation/lateral', 'angulation/pa']);
    // From the front an angle is a coronal one, and is called so as on the worksheet.
    expect(views.map(({ title }) => title)).toEqual([
      'Angulation, measured, lateral view',
      'Coronal angulation, measured, PA view',
    ]);
    expect(views.every(({ points }) => points.length === 1)).toBe(true);
  });

  it('counts from the last reduction before a film', () => {
    const { course } = courseOf(
      bent('before', 55, { day: 0, moment: 'before-reduction' }),
      bent('after', 20, { day: 0, moment: 'after-reduction' }),
      bent('week', 40, { day: 7, moment: 'follow-up' }),
      bent('again', 15, { day: 8, moment: 'after-reduction' }),
      bent('month', 16, { day: 28, moment: 'follow-up' }),
    );
    const [, after, week, again, month] = course[0]!.points;
    expect(after!.sinceReduction).toBeNull();
    expect(after!.sinceLast!.verdict).toBe('better');
    expect(week!.sinceReduction).toMatchObject({ verdict: 'worse', fromName: after!.name });
    expect(week!.sinceReduction!.difference).toBeCloseTo(20, 6);
    expect(again!.sinceReduction).toMatchObject({ verdict: 'better', fromName: after!.name });
    expect(month!.sinceReduction).toMatchObject({ verdict: 'not-told', fromName: again!.name });
  });

  it('shows the band of the first chosen set only over what that set applies to', () => {
    // The textbook chapter gives 50–60° for this neck and does not say whether the normal is taken off.
    const { course } = courseOf(bent('a', 30, { day: 0 }));
    expect(course[0]).toMatchObject({ quantity: 'angulation', band: { lo: 50, hi: 60 } });
    const subtracting = (normal: 'best' | 'other-hand') =>
      assess(
        caseOf(
          injury(),
          settings({ limitSetIds: ['common-practice-adult'], normal }),
          ...bent('a', 30, { day: 0 }),
        ),
        SHIPPED_LIMIT_SETS,
      ).course[0]!;
    // Common practice holds the deformity against the same band; without a film of the other hand there is none.
    expect(subtracting('best')).toMatchObject({ quantity: 'deformity', band: { lo: 50, hi: 60 } });
    expect(subtracting('other-hand')).toMatchObject({ quantity: 'angulation', band: null });
  });
});

describe('cautions of the course', () => {
  const ids = (...records: readonly (readonly CaseRecord[])[]) =>
    courseOf(...records).cautions.map(({ id }) => id);
  const after = bent('after', 20, { day: 0, moment: 'after-reduction' });

  it('stop at a correction lost beyond the smallest detectable change', () => {
    const lost = [after, bent('week', 20 + SMALLEST + 0.1, { day: 7 })];
    expect(ids(...lost)).toContain('lost-correction-on-films');
    expect(courseOf(...lost).cautions.find(({ id }) => id === 'lost-correction-on-films')!.why).toContain(
      'from the lateral film of day 0, after reduction to the lateral film of day 7: 5° more',
    );
    expect(ids(after, bent('week', 20 + SMALLEST - 0.1, { day: 7 }))).not.toContain(
      'lost-correction-on-films',
    );
  });

  it('do not hold a reduction against itself, nor what was reduced again', () => {
    const before = bent('before', 10, { day: 0, moment: 'before-reduction' });
    expect(ids(before, after)).not.toContain('displaced-further');
    const again = bent('again', 30, { day: 8, moment: 'after-reduction' });
    expect(ids(after, bent('week', 45, { day: 7 }), again)).not.toContain('lost-correction-on-films');
  });

  it('warn when an unreduced bone has moved on', () => {
    expect(ids(bent('a', 20, { day: 0 }), bent('b', 40, { day: 7 }))).toContain('displaced-further');
    expect(ids(bent('a', 40, { day: 0 }), bent('b', 20, { day: 7 }))).not.toContain('displaced-further');
  });
});
