import type { Calibration, FragmentCalibration } from '../../src/trace/calibration.ts';
import type { Hypothesis } from '../../src/trace/hypothesis.ts';

/** A fragment's accounts and how far each is from the truth, radians. */
export interface Example {
  readonly hypotheses: readonly Pick<
    Hypothesis,
    'features' | 'leverVariance' | 'unevenVariance' | 'tapVariance'
  >[];
  readonly errors: readonly number[];
}

const ROUNDS = 1200;
const RATE = 0.03;
/** Pull of every weight towards nothing, in units of its feature's spread. */
const RIDGE = 0.01;
/** No axis of a real bone is defined better than this, whatever an invented one allows; radians. */
export const LEAST_DIRECTION_ERROR = (0.3 * Math.PI) / 180;
/** Log-likelihood of a film that no account explains. */
const FLOOR = 1e-6;

/**
 * Sets weights and errors so that the mixture of accounts gives the truth the greatest mean log-likelihood
 * (gradient descent with running moments; Kingma & Ba 2015).
 */
export function fitScore(examples: readonly Example[], tails: Calibration['tails']): FragmentCalibration {
  const width = examples[0]?.hypotheses[0]?.features.length ?? 0;
  const spreads = spreadsOf(examples, width);
  const parameters = new Float64Array(width + 4);
  parameters.set([0.014, 0.15, 0.1, 1].map(Math.log), width);
  const first = new Float64Array(width + 4);
  const second = new Float64Array(width + 4);
  const gradient = new Float64Array(width + 4);
  for (let round = 1; round <= ROUNDS; round += 1) {
    gradient.fill(0);
    for (const example of examples) addGradient(example, parameters, spreads, tails, gradient);
    for (let i = 0; i < parameters.length; i += 1) {
      const g = gradient[i]! / examples.length + (i < width ? RIDGE * parameters[i]! : 0);
      first[i] = 0.9 * first[i]! + 0.1 * g;
      second[i] = 0.999 * second[i]! + 0.001 * g * g;
      const step = first[i]! / (1 - 0.9 ** round);
      const size = Math.sqrt(second[i]! / (1 - 0.999 ** round)) + 1e-8;
      parameters[i]! -= (RATE * step) / size;
    }
    parameters[width] = Math.max(Math.log(LEAST_DIRECTION_ERROR), parameters[width]!);
  }
  const errors = Array.from(parameters.subarray(width), Math.exp);
  return {
    weights: Array.from(parameters.subarray(0, width), (weight, i) => weight / spreads[i]!),
    directionError: errors[0] ?? 0,
    placeError: errors[1] ?? 0,
    unevenFactor: errors[2] ?? 0,
    tapFactor: errors[3] ?? 0,
  };
}

function spreadsOf(examples: readonly Example[], width: number): Float64Array {
  const rows = examples.flatMap(({ hypotheses }) => hypotheses.map(({ features }) => features));
  return Float64Array.from({ length: width }, (_, i) => {
    const mean = rows.reduce((sum, row) => sum + row[i]!, 0) / rows.length;
    return Math.sqrt(rows.reduce((sum, row) => sum + (row[i]! - mean) ** 2, 0) / rows.length) + 1e-6;
  });
}

function addGradient(
  { hypotheses, errors }: Example,
  parameters: Float64Array,
  spreads: Float64Array,
  tails: Calibration['tails'],
  gradient: Float64Array,
): void {
  const width = spreads.length;
  const [a, b, c, d] = Array.from(parameters.subarray(width), (log) => Math.exp(2 * log)) as [
    number,
    number,
    number,
    number,
  ];
  const scores = hypotheses.map(({ features }) => {
    let sum = 0;
    for (let i = 0; i < width; i += 1) sum += (parameters[i]! * features[i]!) / spreads[i]!;
    return sum;
  });
  const most = Math.max(...scores);
  const raised = scores.map((score) => Math.exp(score - most));
  const whole = raised.reduce((sum, value) => sum + value, 0);
  let total = FLOOR;
  const densities = hypotheses.map(({ leverVariance, unevenVariance, tapVariance }, k) => {
    const variance = a + b * leverVariance + c * unevenVariance + d * tapVariance;
    const square = (errors[k]! * errors[k]!) / variance;
    let value = 0;
    let slope = 0;
    for (const [share, factor] of [
      [1 - tails.share, 1],
      [tails.share, tails.factor],
    ] as const) {
      const f2 = factor * factor;
      const bell = (share / factor) * Math.exp(-square / (2 * f2)) * Math.sqrt(1 / (2 * Math.PI * variance));
      value += bell;
      slope += (bell * (square / f2 - 1)) / (2 * variance);
    }
    total += (raised[k]! / whole) * value;
    return { value, slope };
  });
  hypotheses.forEach(({ features, leverVariance, unevenVariance, tapVariance }, k) => {
    const share = raised[k]! / whole;
    const responsibility = (share * densities[k]!.value) / total;
    for (let i = 0; i < width; i += 1) {
      gradient[i]! -= ((responsibility - share) * features[i]!) / spreads[i]!;
    }
    const slope = (share * densities[k]!.slope) / total;
    gradient[width]! -= slope * 2 * a;
    gradient[width + 1]! -= slope * 2 * b * leverVariance;
    gradient[width + 2]! -= slope * 2 * c * unevenVariance;
    gradient[width + 3]! -= slope * 2 * d * tapVariance;
  });
}
