import { describe, expect, it } from 'vitest';
import { planePoint } from '../../src/geometry/units.ts';
import { beliefIn, CALIBRATION, type FragmentCalibration } from '../../src/trace/calibration.ts';
import type { Hypothesis } from '../../src/trace/hypothesis.ts';
import { frameBetween } from '../../src/trace/strip.ts';
import { weigh } from '../../src/trace/weigh.ts';

const account = (score: number): Hypothesis => ({
  frame: frameBetween(planePoint(0, 0), planePoint(0, 30)),
  line: { alongMm: 15, acrossMm: 0, lean: 0 },
  direction: Math.PI / 2,
  leverVariance: 0,
  unevenVariance: 0,
  tapVariance: 0,
  features: [score],
  pair: null,
  strip: null,
  stretch: null,
  head: null,
});
const calibration: FragmentCalibration = {
  weights: [1],
  directionError: 0.01,
  placeError: 0,
  unevenFactor: 0,
  tapFactor: 0,
};
const weighed = (belief: { sharpness: number; errorFactor: number }) =>
  weigh([account(0), account(Math.log(3))], calibration, belief, Math.PI / 2).map(({ bell }) => bell);

describe('the belief in an account', () => {
  it('is its odds, raised to the sharpness: 3 to 1, then 9 to 1', () => {
    const [even] = weighed({ sharpness: 1, errorFactor: 1 });
    const [sharp] = weighed({ sharpness: 2, errorFactor: 1 });
    expect(even?.share).toBeCloseTo(3 / 4, 12);
    expect(sharp?.share).toBeCloseTo(9 / 10, 12);
  });

  it('has an error that grows with the factor of the view', () => {
    const [bell] = weighed({ sharpness: 1, errorFactor: 1.5 });
    expect(Math.sqrt(bell?.variance ?? 0)).toBeCloseTo(0.015, 12);
  });

  it('takes the most cautious numbers of a view that is not known', () => {
    const views = (['pa', 'oblique', 'lateral'] as const).map((view) => beliefIn(CALIBRATION, 'shaft', view));
    const unknown = beliefIn(CALIBRATION, 'shaft', null);
    for (const { errorFactor, mass } of views) {
      expect(unknown.errorFactor).toBeGreaterThanOrEqual(errorFactor);
      expect(unknown.mass).toBeGreaterThanOrEqual(mass);
    }
  });
});
