import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { pairsForAgreement, subjectsForIcc } from '../../../src/geometry/statistics/sample-size.ts';
import { errorOf, unwrap } from '../support.ts';
import { expectAsPrinted, workedExamples } from '../worked-examples.ts';

const examples = workedExamples(
  'sample-size',
  z.discriminatedUnion('plan', [
    z.object({ plan: z.literal('icc'), expected: z.number(), raters: z.number(), width: z.number() }),
    z.object({ plan: z.literal('agreement'), halfWidth: z.number() }),
  ]),
);

describe('planning a study', () => {
  it.each(examples)('$name', (example) => {
    const { given } = example;
    const count =
      given.plan === 'icc'
        ? subjectsForIcc(given.expected, given.raters, given.width)
        : pairsForAgreement(given.halfWidth);
    expectAsPrinted(example, { value: unwrap(count) });
  });

  it('needs more subjects for a narrower interval and fewer with more raters', () => {
    const count = (raters: number, width: number) => unwrap(subjectsForIcc(0.8, raters, width));
    expect(count(2, 0.1)).toBeGreaterThan(count(2, 0.2));
    expect(count(4, 0.2)).toBeLessThan(count(2, 0.2));
    expect(unwrap(pairsForAgreement(0.2))).toBeGreaterThan(unwrap(pairsForAgreement(0.4)));
    expect(unwrap(pairsForAgreement(50))).toBe(3);
  });

  it('says which wish is out of range', () => {
    expect(errorOf(subjectsForIcc(1, 2, 0.2))).toEqual({
      kind: 'out-of-range',
      what: 'expected coefficient',
      found: 1,
    });
    expect(errorOf(subjectsForIcc(0.8, 1, 0.2)).what).toBe('raters');
    expect(errorOf(subjectsForIcc(0.8, 2, 0)).what).toBe('width');
    expect(errorOf(pairsForAgreement(0)).what).toBe('half-width');
    expect(errorOf(pairsForAgreement(1e-9)).what).toBe('half-width');
  });
});
