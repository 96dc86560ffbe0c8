import type { HelpPage } from './page.ts';
import { HELP_PAGES } from './pages.ts';

/** The pages that hold every word of a query, those with it in the title first; all of them for an empty one. */
export function searchPages(query: string): readonly HelpPage[] {
  const words = plain(query).split(/\s+/).filter(Boolean);
  const holds = (text: string) => words.every((word) => plain(text).includes(word));
  const found = HELP_PAGES.filter(({ title, about, formula, reliability, leavesOut }) =>
    holds([title, about, formula, reliability.text, reliability.source, leavesOut].join(' ')),
  );
  return found.toSorted((one, other) => Number(holds(other.title)) - Number(holds(one.title)));
}

const plain = (text: string): string => text.toLowerCase().normalize('NFKD').replace(/\p{M}/gu, '');
