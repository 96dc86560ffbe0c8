import type { Outcome } from './outcomes.ts';

/** What a group of traces came to; degrees and shares of 1. */
export interface Figures {
  readonly count: number;
  readonly untraced: number;
  readonly meanError: number;
  readonly error95: number;
  readonly bias: number;
  readonly coverage: number;
  readonly halfWidth: number;
  readonly notSure: number;
  /** Of all: sure, and more than 5° off. */
  readonly sureAndWrong: number;
  readonly sureMeanError: number;
  readonly sureError95: number;
  readonly byHandMean: number;
  readonly byHand95: number;
}

export const mean = (list: readonly number[]): number => list.reduce((sum, x) => sum + x, 0) / list.length;

/** The value below which a share of the list lies. */
export function quantile(list: readonly number[], share: number): number {
  const sorted = [...list].sort((p, q) => p - q);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

export function figuresOf(outcomes: readonly Outcome[]): Figures {
  const traced = outcomes.filter(({ error }) => error !== null);
  const size = ({ error }: Outcome): number => Math.abs(error ?? 0);
  const sizes = traced.map(size);
  const sure = traced.filter((outcome) => outcome.sure);
  const sureSizes = sure.map(size);
  const hand = outcomes.map(({ byHand }) => Math.abs(byHand));
  return {
    count: outcomes.length,
    untraced: outcomes.length - traced.length,
    meanError: mean(sizes),
    error95: quantile(sizes, 0.95),
    bias: mean(traced.map(({ error }) => error ?? 0)),
    coverage: traced.filter(({ held }) => held).length / traced.length,
    halfWidth: quantile(
      traced.map(({ halfWidth }) => halfWidth),
      0.5,
    ),
    notSure: 1 - sure.length / outcomes.length,
    sureAndWrong: sureSizes.filter((one) => one > 5).length / outcomes.length,
    sureMeanError: mean(sureSizes),
    sureError95: quantile(sureSizes, 0.95),
    byHandMean: mean(hand),
    byHand95: quantile(hand, 0.95),
  };
}
