import type { HelpPage } from './page.ts';
import { HELP_PAGES } from './pages.ts';
import { WHERE_ANSWERS, type WhereAnswer } from './where-answers.ts';

/** The pages that hold every word of a query, those with it in the title first; all of them for an empty one. */
export function searchPages(query: string): readonly HelpPage[] {
  const holds = holdsWordsOf(query);
  const found = HELP_PAGES.filter(({ title, also, about, formula, reliability, leavesOut }) =>
    holds([title, also, about, formula, reliability.text, reliability.source, leavesOut].join(' ')),
  );
  return found.toSorted((one, other) => Number(holds(other.title)) - Number(holds(one.title)));
}

/** Where things are done, as far as every word of a query is in the answer; all of them for an empty one. */
export function searchAnswers(query: string): readonly WhereAnswer[] {
  const holds = holdsWordsOf(query);
  return WHERE_ANSWERS.filter(({ title, text, also }) => holds([title, text, also].join(' ')));
}

/** Whether a text holds every word of a query, whatever the case and the accents of its letters. */
function holdsWordsOf(query: string): (text: string) => boolean {
  const words = plain(query).split(/\s+/).filter(Boolean);
  return (text) => words.every((word) => plain(text).includes(word));
}

const plain = (text: string): string => text.toLowerCase().normalize('NFKD').replace(/\p{M}/gu, '');
