import { AXIS_PAGES } from './axis-pages.ts';
import { BESIDE_PAGES } from './beside-pages.ts';
import type { HelpId, HelpPage } from './page.ts';
import { READING_PAGES } from './reading-pages.ts';

/** Axes first, then readings, then what stands beside them. */
export const HELP_PAGES: readonly HelpPage[] = [...AXIS_PAGES, ...READING_PAGES, ...BESIDE_PAGES];

export const helpPage = (id: HelpId): HelpPage => {
  const page = HELP_PAGES.find((candidate) => candidate.id === id);
  if (page === undefined) throw new Error(`there is no page ${id}`);
  return page;
};

/** The section "In short" of a page in docs/measurements/, word for word. */
export const inShort = ({ about, formula, reliability, leavesOut }: HelpPage): string =>
  [
    about,
    `In words: ${formula}`,
    `Published: ${reliability.text} (${reliability.source})`,
    `Left out: ${leavesOut}`,
  ].join('\n\n');
