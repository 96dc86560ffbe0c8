import { coverageFactor } from './distributions.ts';

/**
 * What the size of an uncertainty rests on. Inputs with the same basis share one estimate of their spread,
 * so that estimate's degrees of freedom are counted once for all of them.
 */
export interface Basis {
  /** "assumed", "from 12 repeats", "published SD, Bhandari 2017". */
  readonly text: string;
  /** Of the estimate of the spread; Infinity when the spread is taken as known. */
  readonly degreesOfFreedom: number;
}

export interface Input {
  readonly value: number;
  /** One standard deviation, in the unit of `value`. Zero or more. */
  readonly standardUncertainty: number;
  /** The line of the budget it belongs to, e.g. "placing the distal axis". */
  readonly source: string;
  readonly basis: Basis;
}

/** Correlation coefficient, in [−1, 1], between two inputs given by their indices. Unlisted pairs have none. */
interface Correlation {
  readonly one: number;
  readonly other: number;
  readonly coefficient: number;
}

/** One source in an uncertainty budget. Shares add up to 1, unless there is no uncertainty at all. */
interface BudgetSource {
  readonly source: string;
  /** Standard uncertainty this source alone would give, in the unit of the result. */
  readonly standardUncertainty: number;
  /** Share of the combined variance. A correlation's part is split evenly between its two sources. */
  readonly share: number;
  readonly basis: string;
  /** Of the estimate the basis stands for; Infinity when its spread is taken as known. */
  readonly degreesOfFreedom: number;
}

/** A value with everything known about how sure it is. */
export interface Measured {
  readonly value: number;
  /** Combined standard uncertainty, one standard deviation (k = 1). */
  readonly standardUncertainty: number;
  /** Effective; Infinity when every source is of known spread. */
  readonly degreesOfFreedom: number;
  /** k of the 95 % interval. */
  readonly coverageFactor: number;
  /** Half-width of the 95 % interval, k times the standard uncertainty. */
  readonly expandedUncertainty: number;
  readonly budget: readonly BudgetSource[];
}

export interface PropagateOptions {
  readonly correlations?: readonly Correlation[];
  /** Difference of two results; give `wrapDegrees` of it for an angle that jumps at ±180°. */
  readonly difference?: (a: number, b: number) => number;
}

/** Step of the numerical derivative as a share of the input's own uncertainty. */
const STEP = 1e-3;

/**
 * Carries the uncertainty of inputs through a function of them, to first order.
 *
 *     u²(y) = Σᵢ Σⱼ cᵢ cⱼ u(xᵢ) u(xⱼ) r(xᵢ, xⱼ)        cᵢ = ∂f/∂xᵢ
 *
 * The derivatives are central differences. An input that enters a function in two places (a point that two
 * axes share) is given once and used twice by `f`; nothing else is needed to count the correlation it makes.
 *
 * The effective degrees of freedom are Welch–Satterthwaite's, taken over the bases rather than the inputs:
 * twelve coordinates whose common spread was estimated once from repeats carry that estimate's degrees of
 * freedom, not twelve times as many. The formula presumes that inputs of different bases are uncorrelated.
 *
 * First order means that `f` should be nearly straight over a few standard uncertainties of each input; each
 * reading's page in docs/measurements says how far that was checked by simulation.
 *
 * @see JCGM 100:2008, 5.1.2 (10), 5.2.2 (13), 5.1.3 note 2 (numerical derivatives), G.4.1 (G.2b).
 */
export function propagate(
  f: (values: readonly number[]) => number,
  inputs: readonly Input[],
  options: PropagateOptions = {},
): Measured {
  const { correlations = [], difference = (a, b) => a - b } = options;
  const values = inputs.map((input) => input.value);
  const value = f(values);
  // Each input's part in the result: its sensitivity times its standard uncertainty.
  const parts = inputs.map(({ standardUncertainty: u }, index) => {
    if (u === 0) return 0;
    const at = (shift: number) => f(values.map((x, i) => (i === index ? x + shift : x)));
    return difference(at(u * STEP), at(-u * STEP)) / (2 * STEP);
  });
  const groups = groupedBy([...inputs.keys()], (index) => lineOf(inputs[index] as Input));
  const sources = [...groups.values()].map((members) => {
    const { source, basis } = inputs[members[0] ?? 0] as Input;
    const own = members.reduce((sum, index) => sum + (parts[index] ?? 0) ** 2, 0);
    let alone = own;
    let contribution = own;
    for (const { one, other, coefficient } of correlations) {
      const ends = Number(members.includes(one)) + Number(members.includes(other));
      // One of the two equal cross terms of (13) for each end of the pair that lies in this source.
      const cross = (parts[one] ?? 0) * (parts[other] ?? 0) * coefficient;
      contribution += ends * cross;
      if (ends === 2) alone += 2 * cross;
    }
    return { source, basis, alone: Math.max(0, alone), contribution };
  });
  const variance = Math.max(
    0,
    sources.reduce((sum, { contribution }) => sum + contribution, 0),
  );
  return measured(
    value,
    variance,
    sources.map(({ source, basis, alone, contribution }) => ({
      source,
      standardUncertainty: Math.sqrt(alone),
      share: variance === 0 ? 0 : contribution / variance,
      basis: basis.text,
      degreesOfFreedom: basis.degreesOfFreedom,
    })),
  );
}

function groupedBy<Item>(
  items: readonly Item[],
  keyOf: (item: Item) => string,
): ReadonlyMap<string, readonly Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
}

const lineOf = ({ source, basis }: Input): string => `${source}\n${basis.text}`;

function measured(value: number, variance: number, budget: readonly BudgetSource[]): Measured {
  const standardUncertainty = Math.sqrt(variance);
  const degreesOfFreedom = effectiveDegreesOfFreedom(budget);
  const k = coverageFactor(degreesOfFreedom);
  return {
    value,
    standardUncertainty,
    degreesOfFreedom,
    coverageFactor: k,
    expandedUncertainty: k * standardUncertainty,
    budget,
  };
}

/** JCGM 100:2008, (G.2b), with the variance as 1 and each basis' part of it as its share. */
function effectiveDegreesOfFreedom(budget: readonly BudgetSource[]): number {
  const sum = [...groupedBy(budget, (line) => line.basis).values()].reduce((total, lines) => {
    const share = lines.reduce((part, line) => part + line.share, 0);
    return total + share ** 2 / (lines[0]?.degreesOfFreedom ?? Number.POSITIVE_INFINITY);
  }, 0);
  return sum === 0 ? Number.POSITIVE_INFINITY : 1 / sum;
}

/**
 * Puts several results that are independent of one another into one: value and budget of `f` of them, each
 * result keeping its own budget lines. Lines of the same basis share its degrees of freedom, as in `propagate`.
 *
 * @param f - Function of the results' values.
 * @param results - Results that share no input. Results that do must be computed together by `propagate`.
 */
export function combineIndependent(
  f: (values: readonly number[]) => number,
  results: readonly { readonly label: string; readonly result: Measured }[],
  difference: (a: number, b: number) => number = (a, b) => a - b,
): Measured {
  const combined = propagate(
    f,
    results.map(({ label, result }) => ({
      value: result.value,
      standardUncertainty: result.standardUncertainty,
      source: label,
      basis: { text: label, degreesOfFreedom: result.degreesOfFreedom },
    })),
    { difference },
  );
  const budget = results.flatMap(({ label, result }, index): BudgetSource[] => {
    const whole = combined.budget[index] as BudgetSource;
    if (result.standardUncertainty === 0) return [];
    const gain = whole.standardUncertainty / result.standardUncertainty;
    return result.budget.map((line) => ({
      ...line,
      source: `${label}: ${line.source}`,
      standardUncertainty: line.standardUncertainty * gain,
      share: line.share * whole.share,
    }));
  });
  return measured(combined.value, combined.standardUncertainty ** 2, budget);
}

/** A value of known standard uncertainty as a result of its own, e.g. a published normal with its SD. */
export const stated = (value: number, standardUncertainty: number, source: string, basis: Basis): Measured =>
  propagate(([x = Number.NaN]) => x, [{ value, standardUncertainty, source, basis }]);
