import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { agree } from '../../src/cli/commands/agree.ts';
import { listen } from './said.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'raybend-'));
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
});

const file = (text: string): string => {
  const path = join(folder, 'ratings.csv');
  writeFileSync(path, text);
  return path;
};

/** One line for each cell, with the columns in another order and one that is not asked for. */
const tableText = (rows: readonly (readonly number[])[]): string =>
  [
    'rater,day,subject,value',
    ...rows.flatMap((row, subject) =>
      row.map((value, rater) => `"J${rater + 1}",1,S${subject + 1},${value}`),
    ),
  ].join('\r\n');

/** Shrout PE, Fleiss JL. Psychol Bull 1979;86:420–428: six subjects by four judges (data from R's psych manual). */
const SHROUT_FLEISS = [
  [9, 2, 5, 8],
  [6, 1, 3, 2],
  [8, 4, 6, 8],
  [7, 1, 2, 6],
  [10, 5, 6, 9],
  [6, 2, 4, 7],
];

/** Bland JM, Altman DG. Lancet 1986;i:307–310: first readings of the Wright and the mini Wright meter, l/min. */
const PEAK_FLOW = [
  [494, 512],
  [395, 430],
  [516, 520],
  [434, 428],
  [476, 500],
  [557, 600],
  [413, 364],
  [442, 380],
  [650, 658],
  [433, 445],
  [417, 432],
  [656, 626],
  [267, 260],
  [478, 477],
  [178, 259],
  [423, 350],
  [427, 451],
];

describe('raybend agree', () => {
  it('gives the six coefficients and the F-table of Shrout and Fleiss', async () => {
    const { out } = listen();
    expect(await agree.run([file(tableText(SHROUT_FLEISS))])).toBe(0);
    const said = JSON.parse(out());
    expect(said.raters).toEqual(['J1', 'J2', 'J3', 'J4']);
    // The paper prints .17 .29 .71 .44 .62 .91 (from memory); half a unit of the last place.
    for (const [form, printed] of [
      ['(1,1)', 0.17],
      ['(2,1)', 0.29],
      ['(3,1)', 0.71],
      ['(1,k)', 0.44],
      ['(2,k)', 0.62],
      ['(3,k)', 0.91],
    ] as const)
      expect(Math.abs(said.intraclassCorrelation[form].value - printed)).toBeLessThanOrEqual(0.005);
    // R 4.2.2, package psych 2.2.9: limits of (3,1).
    expect(said.intraclassCorrelation['(3,1)'].limits.low).toBeCloseTo(0.3424647650339, 6);
    expect(said.intraclassCorrelation['(3,1)'].limits.high).toBeCloseTo(0.945858259955, 6);
    // By hand from the data: mean squares 11.2417, 6.2639, 32.4861, 1.0194; F = 1.7947 and 11.0272.
    const { betweenSubjects, withinSubjects, raters, residual, oneWayF, twoWayF } = said.analysisOfVariance;
    expect(betweenSubjects.meanSquare).toBeCloseTo(11.241667, 6);
    expect(withinSubjects.meanSquare).toBeCloseTo(6.263889, 6);
    expect(raters.meanSquare).toBeCloseTo(32.486111, 6);
    expect(residual.meanSquare).toBeCloseTo(1.019444, 6);
    expect(oneWayF.ratio).toBeCloseTo(1.794678, 6);
    expect(twoWayF.ratio).toBeCloseTo(11.027248, 6);
    // √6.263889 = 2.502776; four raters have no limits of agreement.
    expect(said.withinSubject.withinSubjectSd).toBeCloseTo(2.502776, 6);
    expect(said.limitsOfAgreement).toBeUndefined();
  });

  it('gives the limits of agreement of Bland and Altman for two raters', async () => {
    const { out } = listen();
    expect(await agree.run([file(tableText(PEAK_FLOW))])).toBe(0);
    const { limitsOfAgreement: found } = JSON.parse(out());
    expect(found.of).toBe('J1 − J2');
    // The paper prints a mean of −2.1 and an SD of 38.8 l/min (from memory).
    expect(found.meanDifference.value).toBeCloseTo(-2.1, 1);
    expect(found.sd).toBeCloseTo(38.8, 1);
    // By hand: −2.117647 ± 1.96 · 38.765130.
    expect(found.lower.value).toBeCloseTo(-78.0973, 3);
    expect(found.upper.value).toBeCloseTo(73.862, 3);
    expect(found.upper.interval.low).toBeLessThan(found.upper.value);
  });

  it('says for two raters whether one reads proportionally higher, with errors in both', async () => {
    const { out } = listen();
    expect(await agree.run([file(tableText(PEAK_FLOW))])).toBe(0);
    const { proportionalDifference: found } = JSON.parse(out());
    // numpy 1.24: first principal direction of the centred readings; no repeats in this table.
    expect(found).toMatchObject({ of: 'J2 on J1', errors: 'alike', pairs: 17 });
    expect(found.slope).toBeCloseTo(0.9708808197649392, 6);
    expect(found.sentence).toMatch(/J2 reads 0\.97 more .*no proportional difference seen/);
    const two = PEAK_FLOW.slice(0, 2);
    const again = listen();
    expect(await agree.run([file(tableText(two))])).toBe(0);
    const short = JSON.parse(again.out()).proportionalDifference;
    expect(short.notTold).toBe('too-few-pairs');
    expect(short.slope).toBeUndefined();
    expect(short.sentence).toContain('2 read by both, and a line needs 3');
  });

  it('leaves out of the correlations who was not rated by all, and names them', async () => {
    const { out } = listen();
    const text = `${tableText(SHROUT_FLEISS)}\r\nJ1,1,S7,4`;
    expect(await agree.run([file(text)])).toBe(0);
    const said = JSON.parse(out());
    expect(said.leftOut).toEqual(['S7']);
    expect(said.subjects).toBe(6);
    expect(said.intraclassCorrelation['(1,1)'].value).toBeCloseTo(0.165741768405, 9);
  });

  it('takes the rounds of a single rater for raters, and gives the repeatability of Bland and Altman', async () => {
    const { out } = listen();
    // Two readings of one meter (Bland and Altman 1986, Wright meter, first five people).
    const rounds = [
      [494, 490],
      [395, 397],
      [516, 512],
      [434, 401],
      [476, 470],
    ];
    const lines = rounds.flatMap((pair, person) => pair.map((value) => `P${person},Wright,${value}`));
    expect(await agree.run([file(['subject,rater,value', ...lines].join('\n'))])).toBe(0);
    const said = JSON.parse(out());
    expect(said.raters).toEqual(['Wright, round 1', 'Wright, round 2']);
    // By hand: differences 4, −2, 4, 33, 6; s_w² = (16 + 4 + 16 + 1089 + 36) / 10 = 116.1, s_w = 10.7750; 2.7719 s_w.
    expect(said.withinSubject.withinSubjectSd).toBeCloseTo(10.775, 3);
    expect(said.withinSubject.repeatability).toBeCloseTo(29.867, 2);
    expect(said.repeatsByRater).toMatchObject([{ rater: 'Wright' }]);
  });

  it.each([
    ['subject,rater\nS1,A', 1, 'no-such-column', 'no column “value”'],
    ['subject,rater,value\nS1,,3', 1, 'empty-label', 'line 2 has no rater'],
    ['subject,rater,value\nS1,A,"3,5"', 1, 'not-a-number', 'line 2 has “3,5” for its value'],
    ['subject,rater,value', 1, 'no-readings', 'holds no readings'],
    ['subject,rater,value\nS1,A,3\nS2,A,4', 1, 'too-few-raters', '1 of the 2 raters'],
    ['subject,rater,value\nS1,A,3\nS1,B,4', 1, 'too-few-subjects', '1 of the 2 subjects'],
    ['subject,rater,value\nS1,A,3\nS1,B,3\nS2,A,3\nS2,B,3', 1, 'no-spread', 'are the same'],
    ['subject,rater,value\nS1,A,2\nS1,B,4\nS2,A,3\nS2,B,3', 1, 'no-between-subject-variance', 'same mean'],
  ])('names what is wrong with a table: %j', async (text, code, kind, sentence) => {
    const { out, error } = listen();
    expect(await agree.run([file(text)])).toBe(code);
    expect(error()).toMatch(new RegExp(`^${kind}: `));
    expect(error()).toContain(sentence);
    expect(out()).toBe('');
  });

  it('says when it is called wrongly, and when there is no file', async () => {
    const { error } = listen();
    expect(await agree.run([])).toBe(2);
    expect(await agree.run(['a.csv', 'b.csv'])).toBe(2);
    expect(await agree.run([join(folder, 'none.csv')])).toBe(3);
    expect(error()).toMatch(/unreadable: .*none\.csv could not be read/);
  });
});
