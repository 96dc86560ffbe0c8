import { describe, expect, it } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import { type FilmRecord, INJURY_ID } from '../../src/case/document.ts';
import { injuryOf } from '../../src/case/fixed-records.ts';
import { boxRound, demonstrationSteps, documentOfStep } from '../../src/classroom/demonstration.ts';
import { modelAnswer } from '../../src/classroom/model-answer.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { Learner, NECK, SHAFT } from './learner.ts';

function demonstrated(request: typeof NECK) {
  const learner = new Learner(request);
  const record = learner.document.records[learner.filmId] as FilmRecord;
  const document = modelAnswer(learner.document, record, learner.exercise.ray, learner.film);
  const assessment = assess(document, SHIPPED_LIMIT_SETS);
  return {
    learner,
    record,
    document,
    assessment,
    steps: demonstrationSteps(document, assessment, record.id),
  };
}

describe('a model answer', () => {
  it('reads the angle of its film within the interval it claims, and with its sign', () => {
    for (const request of [NECK, SHAFT, { ...SHAFT, view: { turnDegrees: 0 } }]) {
      const { learner, document } = demonstrated(request);
      learner.document = document;
      const found = learner.reveal();
      expect(found.verdict).toBe('inside');
      expect(Math.abs(found.error)).toBeLessThan(4);
      expect(found.reading.signed).toBe(true);
      expect(found.sideAdds).toBe(0);
    }
  });
});

describe('the steps of a demonstration', () => {
  const { steps, document, record } = demonstrated(NECK);

  it('build up: each axis as it is drawn, then the angle, the deformity, the limits, and what no film shows', () => {
    expect(steps.map(({ id }) => id)).toEqual([
      'film',
      'bone',
      'proximal-axis',
      'distal-axis',
      'dorsal-side',
      'angle',
      'deformity',
      'limits',
      'not-on-the-film',
    ]);
    expect(steps.map(({ marks }) => marks.length)).toEqual([0, 0, 1, 2, 3, 3, 3, 3, 3]);
    expect(steps.filter(({ showAngle }) => showAngle).map(({ id }) => id)).toEqual([
      'angle',
      'deformity',
      'limits',
      'not-on-the-film',
    ]);
  });

  it('name no person, file or day, whatever the case says', () => {
    const injury = { ...injuryOf(document), label: 'Jo Bloggs 4711' };
    const named = {
      ...document,
      records: { ...document.records, [INJURY_ID]: injury, [record.id]: { ...record, day: 12 } },
    };
    const said = JSON.stringify(demonstrationSteps(named, assess(named, SHIPPED_LIMIT_SETS), record.id));
    expect(said).not.toMatch(/Bloggs|4711|day 12/);
  });

  it('show only the marks of their step', () => {
    const shown = documentOfStep(document, record.id, steps[2]!);
    const roles = Object.values(shown.records).flatMap((one) => (one.kind === 'mark' ? [one.role] : []));
    expect(roles).toEqual(['proximal-axis']);
    expect(injuryOf(shown)).toEqual(injuryOf(document));
  });

  it('crop to the marks and stay on the film', () => {
    const film = { columns: 100, rows: 80 };
    expect(boxRound([], film)).toBeNull();
    // 20 columns by 10 rows: half of 20 plus 55 % of 20 to either side of (50, 40).
    expect(boxRound([filmPoint(40, 35), filmPoint(60, 45)], film)).toEqual({
      column: 29,
      row: 19,
      columns: 42,
      rows: 42,
    });
    const corner = boxRound([filmPoint(1, 1), filmPoint(5, 79)], film)!;
    expect([corner.column, corner.row]).toEqual([0, 0]);
    expect(corner.row + corner.rows).toBeLessThanOrEqual(80);
    expect(corner.column + corner.columns).toBeLessThanOrEqual(100);
  });
});
