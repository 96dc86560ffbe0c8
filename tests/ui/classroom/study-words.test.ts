import { expect, it } from 'vitest';
import { signed } from '../../../src/ui/classroom/study-words.ts';

it('writes the sign of a statistic, and none of what rounds to nothing', () => {
  // By hand, to two decimals.
  expect([1.249, -0.3, 0.004, -0.004, 0].map(signed)).toEqual(['+1.25', '−0.30', '0.00', '0.00', '0.00']);
});
