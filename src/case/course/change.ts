import { smallestDetectableChange } from '../../geometry/statistics/change.ts';
import { decimalsFor } from '../../tolerance/number-words.ts';
import { unitText } from '../format.ts';
import type { KnownReading } from '../reading.ts';
import type { CourseChange } from './course-series.ts';

/**
 * The change from an earlier reading to a later one. It is a change only beyond the smallest detectable one,
 * 1.96·√(u₁² + u₂²), or with t in place of 1.96 where the placing error comes from few repeats.
 *
 * @param earlier - With nothing taken off that the later reading shares: a common normal cancels.
 */
export function changeBetween(earlier: KnownReading, later: KnownReading, fromName: string): CourseChange {
  const signed = earlier.signed && later.signed;
  const [before, after] = signed
    ? [earlier.value, later.value]
    : [Math.abs(earlier.value), Math.abs(later.value)];
  const difference = after - before;
  const smallestDetectable = smallestDetectableChange(earlier, later);
  const alike = earlier.constructions.every((construction, i) => construction === later.constructions[i]);
  const verdict = !alike
    ? 'drawn-differently'
    : Math.abs(difference) <= smallestDetectable
      ? 'not-told'
      : Math.abs(after) > Math.abs(before)
        ? 'worse'
        : 'better';
  const number = (value: number) =>
    `${Math.abs(value).toFixed(decimalsFor(smallestDetectable))}${unitText(later.unit)}`;
  const size = `${number(difference)} ${difference < 0 ? 'less' : 'more'}`;
  const told = verdict === 'worse' || verdict === 'better';
  // From 20° to one side to 18° to the other is no straightening by 2°.
  const words =
    told && before * after < 0
      ? 'a change, now to the other side'
      : VERDICT_WORDS[verdict](number(smallestDetectable));
  return {
    fromName,
    difference,
    smallestDetectable,
    verdict,
    words: `${size}: ${words}`,
  };
}

const VERDICT_WORDS: Readonly<Record<CourseChange['verdict'], (smallest: string) => string>> = {
  worse: () => 'a change, farther out of line',
  better: () => 'a change, straighter',
  'not-told': (smallest) => `too small to call a change (from ${smallest} on)`,
  'drawn-differently': () => 'not compared, the axes are drawn in different ways',
};
