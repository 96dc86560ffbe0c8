import { describe, expect, it } from 'vitest';
import { normalDeviate, seededRandom } from '../../src/phantom/random.ts';
import { type Example, fitScore } from './fit-score.ts';

/** Made-up accounts: the right one errs by 2°, the wrong one by 10° more and has the larger first feature. */
const RADIANS = Math.PI / 180;
const random = seededRandom(5, 'made-up accounts');
const account = (features: readonly number[]) => ({
  features,
  leverVariance: 0,
  unevenVariance: 0,
  tapVariance: 0,
});
const examples = Array.from({ length: 600 }, (): Example => {
  // The right account is marked by the first feature nine times in ten.
  const told = random() < 0.9;
  return {
    hypotheses: [account([told ? 1 : 0, random()]), account([told ? 0 : 1, random()])],
    errors: [2 * RADIANS * normalDeviate(random), (10 + 2 * normalDeviate(random)) * RADIANS],
  };
});

describe('the fit of the score', () => {
  const fitted = fitScore(examples, { share: 0, factor: 1 });

  it('finds the odds that the feature was made with: ln 9 = 2.20', () => {
    // The pull towards nothing takes about a tenth of it.
    expect(Math.abs((fitted.weights[0] ?? 0) - Math.log(9))).toBeLessThan(0.4);
    expect(Math.abs(fitted.weights[1] ?? 1)).toBeLessThan(0.4);
  });

  it('finds the error that the right accounts were made with, 2°', () => {
    expect(Math.abs(fitted.directionError / RADIANS - 2)).toBeLessThan(0.2);
  });
});
