import { smallestDetectableChange } from '../geometry/statistics/change.ts';
import type { Reveal } from './reveal.ts';
import { inDegrees } from './reveal-words.ts';

/** Two films of one bone: how far the readings differ, how far the truth does, and what could be told. */
export function changeWords(found: readonly Reveal[]): string | null {
  const [first, last] = [found[0], found.at(-1)];
  if (first === undefined || last === undefined || found.length < 2) return null;
  const read = last.value - first.value;
  const least = smallestDetectableChange(first.reading, last.reading);
  const told =
    Math.abs(read) > least
      ? 'more than your two uncertainties explain: you may call it a change'
      : 'no more than your two uncertainties explain: you may not call it a change';
  return `Between the films you read a difference of ${inDegrees(Math.abs(read))}, ${told} (it takes ${inDegrees(least)}). In truth the films differ by ${inDegrees(Math.abs(last.truth - first.truth))}.`;
}
