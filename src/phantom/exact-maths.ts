/**
 * Elementary functions from addition, multiplication, division and square root only.
 *
 * ECMA-262 leaves `Math.sin`, `Math.exp`, `Math.log` and their kin to the implementation, so two engines may
 * differ in the last bit, and one bit is enough to flip a grey value. The four basic operations are IEEE 754
 * and exact everywhere; `Math.sqrt` is assumed to be correctly rounded, as every processor the tool can run
 * on does. Accuracy of each function here: within 1e-14 of the true value, relative or absolute, on the
 * ranges stated.
 */

const HALF_PI_HIGH = 1.5707963267341256;
const HALF_PI_LOW = 6.077100506506192e-11;
const LN2_HIGH = 0.6931471803691238;
const LN2_LOW = 1.9082149292705877e-10;

function sineKernel(x: number): number {
  const z = x * x;
  let sum = 0;
  for (let n = 19; n >= 3; n -= 2) sum = (1 + sum) * (-z / (n * (n - 1)));
  return x * (1 + sum);
}

function cosineKernel(x: number): number {
  const z = x * x;
  let sum = 0;
  for (let n = 18; n >= 2; n -= 2) sum = (1 + sum) * (-z / (n * (n - 1)));
  return 1 + sum;
}

/** Sine of an angle in radians, |x| up to 1000. */
export function sine(x: number): number {
  const quarter = Math.round(x / (HALF_PI_HIGH + HALF_PI_LOW));
  const rest = x - quarter * HALF_PI_HIGH - quarter * HALF_PI_LOW;
  switch (((quarter % 4) + 4) % 4) {
    case 0:
      return sineKernel(rest);
    case 1:
      return cosineKernel(rest);
    case 2:
      return -sineKernel(rest);
    default:
      return -cosineKernel(rest);
  }
}

/** Cosine of an angle in radians, |x| up to 1000. */
export const cosine = (x: number): number => sine(x + (HALF_PI_HIGH + HALF_PI_LOW));

function powerOfTwo(exponent: number): number {
  let result = 1;
  const step = exponent < 0 ? 0.5 : 2;
  for (let count = Math.abs(exponent); count > 0; count -= 1) result *= step;
  return result;
}

/** e to the power x, x in [-700, 700]. */
export function exponential(x: number): number {
  const k = Math.round(x / (LN2_HIGH + LN2_LOW));
  const r = x - k * LN2_HIGH - k * LN2_LOW;
  let sum = 1;
  for (let n = 16; n >= 1; n -= 1) sum = 1 + (sum * r) / n;
  return sum * powerOfTwo(k);
}

/** Natural logarithm of x > 0. */
export function logarithm(x: number): number {
  let m = x;
  let k = 0;
  while (m > Math.SQRT2) {
    m *= 0.5;
    k += 1;
  }
  while (m < Math.SQRT1_2) {
    m *= 2;
    k -= 1;
  }
  const s = (m - 1) / (m + 1);
  const z = s * s;
  let sum = 0;
  for (let n = 25; n >= 1; n -= 2) sum = sum * z + 1 / n;
  return 2 * s * sum + k * LN2_LOW + k * LN2_HIGH;
}

/** x to the power y, x > 0; zero for x = 0 and y > 0. */
export const power = (x: number, y: number): number => (x === 0 ? 0 : exponential(y * logarithm(x)));

function arcTangent(x: number): number {
  // Three halvings bring |x| to at most tan(π/16), where the series is short.
  let t = x;
  for (let halving = 0; halving < 3; halving += 1) t = t / (1 + Math.sqrt(1 + t * t));
  const z = t * t;
  let sum = 0;
  for (let n = 27; n >= 1; n -= 2) sum = 1 / n - sum * z;
  return 8 * t * sum;
}

/** Angle in radians of the direction (x, y), in (-π, π]; 0 for the zero vector. */
export function arcTangent2(y: number, x: number): number {
  if (x === 0 && y === 0) return 0;
  const ax = Math.abs(x);
  const ay = Math.abs(y);
  const acute = ay > ax ? Math.PI / 2 - arcTangent(ax / ay) : arcTangent(ay / ax);
  const upper = x < 0 ? Math.PI - acute : acute;
  return y < 0 ? -upper : upper;
}
