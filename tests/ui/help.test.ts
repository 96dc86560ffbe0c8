import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { QUANTITY_NAMES } from '../../src/case/format.ts';
import { CONSTRUCTIONS } from '../../src/tolerance/anatomy.ts';
import {
  HELP_PAGES,
  helpPage,
  inShort,
  PAGE_OF_QUANTITY,
  pageOfConstruction,
  searchPages,
} from '../../src/ui/help/pages.ts';

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

const sectionOf = (doc: string, title: string): string => {
  const text = readFileSync(`docs/measurements/${doc}.md`, 'utf8');
  const [, section] = new RegExp(`\\n## ${title}\\n([\\s\\S]*?)(?=\\n## |$)`).exec(text) ?? [];
  if (section === undefined) throw new Error(`docs/measurements/${doc}.md has no section “${title}”`);
  return oneLine(section);
};

describe('definitions', () => {
  it.each(HELP_PAGES.map((page) => [page.id, page] as const))(
    '%s: the page in docs says the same',
    (_, page) => {
      expect(sectionOf(page.doc, 'In short')).toBe(oneLine(inShort(page)));
    },
  );

  it.each(HELP_PAGES.map((page) => [page.id, page] as const))('%s: no number of its own', (_, page) => {
    const text = readFileSync(`docs/measurements/${page.doc}.md`, 'utf8');
    const rest = text.replace(/\n## In short\n[\s\S]*?(?=\n## )/, '');
    const numbers = page.reliability.text.match(/\d+(\.\d+)?/g) ?? [];
    // The longer page, with its references, has every number that the short one claims as published.
    for (const number of numbers) expect(rest.replaceAll(',', ' ')).toContain(number);
  });

  it('has a page for every reading and every construction, and every page is in docs', () => {
    for (const quantity of Object.keys(QUANTITY_NAMES))
      expect(helpPage(PAGE_OF_QUANTITY[quantity as keyof typeof PAGE_OF_QUANTITY]).kind).toBe('reading');
    for (const construction of CONSTRUCTIONS)
      expect(helpPage(pageOfConstruction(construction)!).kind).toBe('axis');
    expect(pageOfConstruction('point')).toBeNull();
    for (const { doc } of HELP_PAGES) expect(existsSync(`docs/measurements/${doc}.md`)).toBe(true);
  });

  it('is found by any of its words, with titles first', () => {
    expect(searchPages('')).toHaveLength(HELP_PAGES.length);
    expect(searchPages('  Canal ')[0]?.id).toBe('canal');
    expect(searchPages('palm turned stated')).toEqual([]);
    expect(searchPages('oblique stated').map(({ id }) => id)).toContain('spatial-angle');
    expect(searchPages('Sletten').map(({ id }) => id)).toEqual(
      expect.arrayContaining(['canal', 'angulation', 'shortening']),
    );
    expect(searchPages('no such word anywhere')).toEqual([]);
  });
});
