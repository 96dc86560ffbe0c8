import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { QUANTITY_NAMES } from '../../src/case/format.ts';
import { CONSTRUCTIONS } from '../../src/tolerance/anatomy.ts';
import { PAGE_OF_QUANTITY, pageOfConstruction } from '../../src/ui/help/page-of.ts';
import { HELP_PAGES, helpPage, inShort } from '../../src/ui/help/pages.ts';
import { searchAnswers, searchPages } from '../../src/ui/help/search-pages.ts';
import { WHERE_ANSWERS } from '../../src/ui/help/where-answers.ts';
import { workedExamples } from '../geometry/worked-examples.ts';

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

const sectionOf = (doc: string, title: string): string => {
  const text = readFileSync(`docs/measurements/${doc}.md`, 'utf8');
  const [, section] = new RegExp(`\\n## ${title}\\n([\\s\\S]*?)(?=\\n## |$)`).exec(text) ?? [];
  if (section === undefined) throw new Error(`docs/measurements/${doc}.md has no section “${title}”`);
  return oneLine(section);
};

/** A sentence with its numbers left open: "ICC {low} to {high}". */
function numbersOf(pattern: string, text: string): Readonly<Record<string, number>> | null {
  const escaped = pattern.replace(/[.*+?^$()|[\]\\]/g, '\\$&');
  const found = new RegExp(escaped.replace(/\{(\w+)\}/g, '(?<$1>\\d+(?:\\.\\d+)?)')).exec(text)?.groups;
  return found === undefined
    ? null
    : Object.fromEntries(Object.entries(found).map(([name, printed]) => [name, Number(printed)]));
}

const published = workedExamples('published-reliability', z.object({ page: z.string(), says: z.string() }));

describe('published reliability', () => {
  it.each(published)('$name', (example) => {
    const { page, says } = example.given;
    const text = oneLine(readFileSync(`docs/measurements/${page}.md`, 'utf8'));
    const numbers = numbersOf(says, text);
    expect(numbers, `docs/measurements/${page}.md does not say “${says}”`).not.toBeNull();
    // As printed, digit by digit: what is shown has no rounding of its own.
    for (const [name, printed] of Object.entries(example.expected))
      expect(numbers?.[name], name).toBe(Number(printed));
    expect(Object.keys(numbers ?? {}).toSorted()).toEqual(Object.keys(example.expected).toSorted());
  });
});

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

  // Each as its publication has it; the abstracts or texts were seen (docs/REFERENCES.md).
  it.each([
    ['canal', 'ICC 0.53 to 0.81', 'Sletten'],
    ['cortex-pair', 'ICC 0.76 to 1.00', 'Lamraski'],
    ['head', 'ICC 0.70 to 0.79', 'Lamraski'],
    ['dorsal-cortex', 'index 13 (4.73), middle 10 (5.28), ring 11 (4.45), small 12 (5.11)', 'Bhandari'],
    ['free', 'SD 5.2°', 'Garcia-Elias'],
    ['angulation', 'up to 35° in cadavers', 'Lamraski'],
    ['deformity', 'capital axis ring 14°, small 12°', 'Rivlin'],
    ['shortening', 'ICC 0.81 to 0.96', 'Sletten'],
    ['length', '46.2, 68.1, 64.6, 58.0, 53.7 mm, thumb to small', 'Buryanov'],
    ['spatial-angle', '19° and 14°, drawn 24°', 'PMC4799231'],
    ['fist-photograph', '73 % unequally on the two hands', '240 fingers'],
  ] as const)('%s: the published number with its source', (id, said, by) => {
    const { text, source } = helpPage(id).reliability;
    expect(text).toContain(said);
    expect(source).toContain(by);
  });

  it('has a page for every reading and every construction, and every page is in docs', () => {
    for (const quantity of Object.keys(QUANTITY_NAMES))
      expect(helpPage(PAGE_OF_QUANTITY[quantity as keyof typeof PAGE_OF_QUANTITY]).kind).toBe('reading');
    for (const construction of CONSTRUCTIONS)
      expect(helpPage(pageOfConstruction(construction)!).kind).toBe('axis');
    expect(pageOfConstruction('point')).toBeNull();
    for (const { doc } of HELP_PAGES) expect(existsSync(`docs/measurements/${doc}.md`)).toBe(true);
  });

  // What somebody who reads such films would type. Common practice, no source.
  it.each([
    ['shortening', 'Shortening'],
    ['rotation', 'Rotation, and a photograph of the fist'],
    ['scissoring', 'Rotation, and a photograph of the fist'],
    ['step-off', 'Joint step and gap'],
    ['how sure', 'The interval'],
    ['calibration', 'Scale'],
    ['cast', 'Cast, splint, reduction'],
    ['save', 'Saving'],
    ['paediatric', 'Children'],
    ['thumb', 'Thumb'],
    ['DICOM', 'DICOM'],
    ['undo', 'Undo'],
    ['print', 'Printing'],
  ])('“%s” finds “%s”', (typed, title) => {
    const titles = [...searchPages(typed), ...searchAnswers(typed)].map((one) => one.title);
    expect(titles).toContain(title);
    expect(titles.length).toBeLessThan(6);
  });

  it('names where things are done by labels that are on the page', () => {
    const vocabulary = readFileSync('docs/vocabulary.md', 'utf8');
    const labels = [
      'Cases',
      'Record',
      'Snapshot',
      'Marks only',
      'With films',
      'Open films',
      'Child',
      'Course',
    ];
    const answers = WHERE_ANSWERS.map(({ text }) => text).join(' ');
    for (const label of labels) {
      expect(answers).toContain(label);
      expect(vocabulary).toContain(label);
    }
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
