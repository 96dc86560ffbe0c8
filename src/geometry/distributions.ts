import jStat from 'jstat';

/** Beyond this many degrees of freedom the t quantile differs from the normal one by less than 3 × 10⁻⁶. */
const AS_GOOD_AS_NORMAL = 1e6;

/** Quantile of the standard normal distribution; `probability` in (0, 1). */
export const normalQuantile = (probability: number): number => jStat.normal.inv(probability, 0, 1);

/** Standard normal distribution function. */
export const normalProbability = (z: number): number => jStat.normal.cdf(z, 0, 1);

/**
 * Quantile of Student's t distribution.
 * @param probability - In (0, 1).
 * @param degreesOfFreedom - > 0, not necessarily whole; Infinity gives the normal quantile.
 */
export function studentQuantile(probability: number, degreesOfFreedom: number): number {
  if (!(degreesOfFreedom > 0)) {
    throw new RangeError(`Degrees of freedom must be positive, not ${degreesOfFreedom}.`);
  }
  return degreesOfFreedom > AS_GOOD_AS_NORMAL
    ? normalQuantile(probability)
    : jStat.studentt.inv(probability, degreesOfFreedom);
}

/** Student's t distribution function: probability of a value below `t`. */
export function studentProbability(t: number, degreesOfFreedom: number): number {
  if (!(degreesOfFreedom > 0)) {
    throw new RangeError(`Degrees of freedom must be positive, not ${degreesOfFreedom}.`);
  }
  return degreesOfFreedom > AS_GOOD_AS_NORMAL
    ? normalProbability(t)
    : jStat.studentt.cdf(t, degreesOfFreedom);
}

/**
 * Coverage factor k: the expanded uncertainty k·u holds the value with the stated probability.
 * @param level - Coverage probability in (0, 1); 0.95 unless told.
 * @see JCGM 100:2008, G.3.2 and table G.2. The degrees of freedom are not cut to a whole number (G.4.1 note 1).
 */
export const coverageFactor = (degreesOfFreedom: number, level = 0.95): number =>
  studentQuantile((1 + level) / 2, degreesOfFreedom);

/** Quantile of the F distribution with `between` and `within` degrees of freedom. */
export const fQuantile = (probability: number, between: number, within: number): number =>
  jStat.centralF.inv(probability, between, within);

/** F distribution function: probability of a ratio below `ratio`. */
export const fProbability = (ratio: number, between: number, within: number): number =>
  jStat.centralF.cdf(ratio, between, within);

/** Quantile of the chi-square distribution. */
export const chiSquareQuantile = (probability: number, degreesOfFreedom: number): number =>
  jStat.chisquare.inv(probability, degreesOfFreedom);

/** Beyond this the library's series for the non-central t distribution underflows. */
const MOST_NON_CENTRALITY = 25;

/**
 * Quantile of the non-central t distribution, to about 10⁻⁹ of itself.
 * @param nonCentrality - In [0, 25].
 */
export function nonCentralStudentQuantile(
  probability: number,
  degreesOfFreedom: number,
  nonCentrality: number,
): number {
  if (!(nonCentrality >= 0 && nonCentrality <= MOST_NON_CENTRALITY)) {
    throw new RangeError(`Non-centrality must lie in [0, ${MOST_NON_CENTRALITY}], not ${nonCentrality}.`);
  }
  const excess = (t: number): number =>
    jStat.noncentralt.cdf(t, degreesOfFreedom, nonCentrality) - probability;
  let reach = 1;
  while (excess(nonCentrality + reach) < 0 || excess(nonCentrality - reach) > 0) reach *= 2;
  return rootBetween(excess, nonCentrality - reach, nonCentrality + reach);
}

/** Root of a rising function by false position, the stale end's value halved (the Illinois rule). */
function rootBetween(f: (x: number) => number, from: number, to: number): number {
  let [low, high, below, above] = [from, to, f(from), f(to)];
  let last = 0;
  for (let step = 0; step < 100 && high - low > 1e-10 * (to - from); step += 1) {
    const x = (low * above - high * below) / (above - below);
    const value = f(x);
    if (value === 0 || x <= low || x >= high) return x;
    if (value < 0) {
      [low, below] = [x, value];
      if (last < 0) above /= 2;
    } else {
      [high, above] = [x, value];
      if (last > 0) below /= 2;
    }
    last = value;
  }
  return (low + high) / 2;
}
