import { expect } from 'vitest';
import type { Caution } from '../../src/tolerance/caution.ts';
import type { CautionFacts } from '../../src/tolerance/caution-facts.ts';
import { cautionsFor } from '../../src/tolerance/cautions.ts';

/** The cautions of a case by their ids, as they are said. */
export const ids = (from: CautionFacts): readonly string[] => cautionsFor(from).map((caution) => caution.id);

/** What a case with nothing wrong still says. */
export const QUIET = ['angle-is-not-decision', 'second-look-only'];

/** A caution has a title, says why it matters, what is usually done, and where that comes from. */
export const complete = (caution: Caution) => {
  for (const words of [caution.title, caution.why, caution.usually, caution.source])
    expect(words.trim().length, caution.id).toBeGreaterThan(3);
  expect(caution.why, caution.id).toMatch(/[.?]$/);
  expect(caution.usually, caution.id).toMatch(/\.$/);
};
