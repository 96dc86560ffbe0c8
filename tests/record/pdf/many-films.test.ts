import { encode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/case/assess.ts';
import { type CaseDocument, type CaseRecord, EXAMINATION_ID } from '../../../src/case/document.ts';
import { markedFilms } from '../../../src/case/film-marks.ts';
import { formatReading } from '../../../src/case/format.ts';
import { recordPdf } from '../../../src/record/pdf/record-pdf.ts';
import { knownReadings } from '../../../src/record/readings.ts';
import { checksFor } from '../../../src/tolerance/checks.ts';
import type { LimitSet } from '../../../src/tolerance/limit-set.ts';
import { SHIPPED_LIMIT_SETS } from '../../../src/tolerance/limit-sets.ts';
import { caseOf, dot, film, free, injury, line, mark, settings, succeeded } from '../../case/samples.ts';
import { assessed, largeCase, sampleCase } from '../sample.ts';
import { flowingText, itWithPdfTools, readPdf, unspaced } from './checked-pdf.ts';
import { FACES } from './faces.ts';
import { expectNothingOverlaps, sizesOf } from './page-layout.ts';

const PICTURE = encode({ width: 40, height: 50, data: new Uint8Array(40 * 50 * 3).fill(60), channels: 3 });

const LONG_NAME = 'A name for this case that somebody made as long as the field takes '
  .repeat(3)
  .slice(0, 200);

/** Films of a course after those that are there: two from the side for each from the front, some with a length. */
const followUps = (count: number): readonly CaseRecord[] =>
  Array.from({ length: count }, (_, index): readonly CaseRecord[] => {
    const id = `more-${index}`;
    const front = index % 3 === 2;
    return [
      film(id, {
        day: index + 1,
        view: front ? 'pa' : 'lateral',
        moment: index === 0 ? 'after-reduction' : 'follow-up',
      }),
      mark(`${id}/p`, id, 'proximal-axis', free([200, 420], [200, 300])),
      mark(`${id}/d`, id, 'distal-axis', free([200, 300], [250 - (index % 20), 200])),
      ...(index % 2 === 1 ? [dot(id, 'dorsal-side', [120, 250])] : []),
      ...(front ? [line(id, 'length', [200, 440], [215, 150])] : []),
    ];
  }).flat();

const allWorrying: CaseRecord = {
  kind: 'examination',
  id: EXAMINATION_ID,
  answers: Object.fromEntries(checksFor(injury()).map(({ id, worrying }) => [id, worrying])),
};
const everySet = settings({ limitSetIds: SHIPPED_LIMIT_SETS.map(({ id }) => id) });
const oneFilm = caseOf(
  ...Object.values(sampleCase().records).filter(
    (record) => record.id !== 'film-2' && !('filmId' in record && record.filmId === 'film-2'),
  ),
);
const eleven = caseOf(...Object.values(sampleCase().records), ...followUps(9));

const CASES: readonly (readonly [name: string, document: CaseDocument])[] = [
  ['1 film', oneFilm],
  ['3 films, 7 limit sets', largeCase()],
  ['5 films', caseOf(...Object.values(sampleCase().records), ...followUps(3))],
  ['11 films', eleven],
  ['11 films, 7 limit sets', caseOf(...Object.values(largeCase().records), ...followUps(8))],
  ['50 films, every limit set', caseOf(...Object.values(largeCase().records), ...followUps(47), everySet)],
  [
    '50 films, every limit set, every answer a worrying one',
    caseOf(...Object.values(largeCase().records), ...followUps(47), everySet, allWorrying),
  ],
];

const made = async (
  document: CaseDocument,
  sets: readonly LimitSet[] = SHIPPED_LIMIT_SETS,
  label = LONG_NAME,
) =>
  succeeded(
    await recordPdf({
      document,
      assessment: assess(document, sets),
      faces: FACES,
      picture: { png: PICTURE, filmNumbers: [1] },
      label,
      writtenOn: '1 March 2026',
      softwareVersion: '0.1.0',
    }),
  );

describe('a record of many films', () => {
  it.each(CASES)(
    'of %s is one page on which nothing lies over anything, in type that is read',
    async (_, document) => {
      const { pages } = await made(document);
      expect(pages).toHaveLength(1);
      expectNothingOverlaps(pages[0]!);
      // Common practice, no source: 6 points is the least that print is read at.
      expect(Math.min(...sizesOf(pages[0]!))).toBeGreaterThan(6);
      const values = new Set(
        knownReadings(assessed(document)).flatMap((reading) => {
          const { value, plusMinus } = formatReading(reading);
          return [value, `${value} ${plusMinus}`];
        }),
      );
      // The scale under a ruler has numbers that look like readings, and is set in plain type.
      const sizes = pages[0]!.flatMap((one) =>
        one.kind === 'text' && values.has(one.text) && (one.face === 'sansBold' || one.text.includes('±'))
          ? [one.size]
          : [],
      );
      expect(sizes.length).toBeGreaterThan(5);
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(7);
    },
  );

  itWithPdfTools(
    'has each film of eleven with its angle, and counts the readings that are not there',
    async () => {
      const { bytes, pages } = await made(eleven);
      expect(readPdf(bytes).pages).toBe(1);
      const text = unspaced(flowingText(bytes));
      const known = knownReadings(assessed(eleven));
      for (const reading of known.filter(({ quantity }) => ['angulation', 'deformity'].includes(quantity))) {
        const { value, plusMinus } = formatReading(reading);
        // In the order in which they are drawn: on a line, or in a row of a film in full.
        expect(
          [`${value}${plusMinus}`, `${plusMinus}${value}`].map(unspaced).some((one) => text.includes(one)),
        ).toBe(true);
      }
      // The one that is pictured is in full; a film in full is named over its readings.
      const films = markedFilms(eleven).map(({ film: one }) => one.id);
      const inFull = pages[0]!.flatMap((one) => {
        const [, number] = (one.kind === 'text' && /^Film (\d+)\. $/.exec(one.text)) || [];
        return number === undefined || one.kind !== 'text' || one.face !== 'sansBold' ? [] : [Number(number)];
      });
      expect(inFull).toContain(1);
      const elsewhere = known.filter(
        ({ filmId, quantity }) =>
          !inFull.includes(films.indexOf(filmId) + 1) && !['angulation', 'deformity'].includes(quantity),
      );
      expect(text).toContain(
        unspaced(`${elsewhere.length} further readings of the films above not on this page`),
      );
      expect(text).toContain(unspaced('The other 10 films are not pictured.'));
      for (const { question } of checksFor(injury())) expect(text).toContain(unspaced(question));
    },
  );

  itWithPdfTools(
    'says which of fifty are not on it, how many readings they have, and where these are',
    async () => {
      for (const [name, document] of CASES.slice(-2)) {
        const { bytes } = await made(document);
        const text = flowingText(bytes);
        const [, from, to, films, readings] =
          /for want of room: films (\d+) to (\d+) \((\d+) films, (\d+) readings\)/.exec(text) ?? [];
        expect(Number(films), name).toBe(Number(to) - Number(from) + 1);
        const out = new Set(
          markedFilms(document)
            .slice(Number(from) - 1, Number(to))
            .map(({ film: one }) => one.id),
        );
        const theirs = knownReadings(assessed(document)).filter(({ filmId }) => out.has(filmId));
        expect(Number(readings)).toBe(theirs.length);
        expect(text).toContain('is in the tables (CSV or JSON)');
      }
    },
  );

  it('names on a line the worst of all outcomes of its film: no angle hides a shortening', async () => {
    // Seven films, so that some are on a line; on one of them 20 mm are missing, and its angle is harmless.
    const document = caseOf(
      ...Object.values(sampleCase().records),
      ...followUps(6),
      film('short', { day: 3, spacing: film('film-1').spacing }),
      mark('short/p', 'short', 'proximal-axis', free([200, 420], [200, 300])),
      mark('short/d', 'short', 'distal-axis', free([200, 300], [240, 200])),
      line('short', 'length', [200, 440], [240, 200]),
    );
    const { comparisons, readings } = assessed(document);
    const ofShort = comparisons.filter(({ readingId }) =>
      readings.some(({ id, filmId }) => id === readingId && filmId === 'short'),
    );
    expect(new Set(ofShort.map(({ outcome }) => outcome))).toEqual(
      new Set(['inside the limit', 'past the limit']),
    );
    const { pages } = await made(document);
    const texts = pages[0]!.flatMap((one) => (one.kind === 'text' ? [one] : []));
    const cell = texts.find(({ text }) => text === 'lateral, day 3');
    const row = texts
      .filter(({ y }) => cell !== undefined && Math.abs(y - cell.y) < 0.1)
      .map(({ text }) => text);
    expect(row).toContain('past the limit');
  });

  itWithPdfTools(
    'runs on, marked as continued, where local protocols alone are more than a page',
    async () => {
      const [first] = SHIPPED_LIMIT_SETS as readonly [LimitSet];
      const sets = Array.from(
        { length: 60 },
        (_, index): LimitSet => ({
          ...first,
          id: `local-${index}`,
          title: `Local protocol ${index}`,
          local: true,
          source: {
            ...first.source,
            citation: `Invented protocol ${index}, ${'with a long name '.repeat(12)}`,
          },
        }),
      );
      const document = caseOf(
        ...Object.values(sampleCase().records),
        settings({ limitSetIds: sets.map(({ id }) => id) }),
      );
      const { bytes, pages } = await made(document, sets);
      expect(pages.length).toBeGreaterThan(1);
      expect(readPdf(bytes).pages).toBe(pages.length);
      const text = unspaced(flowingText(bytes));
      expect(text).toContain(unspaced(`Page 1 of ${pages.length}, continued`));
      for (const { title } of sets) expect(text).toContain(unspaced(`${title} (local protocol), revision`));
      for (const page of pages) expectNothingOverlaps(page);
    },
  );

  itWithPdfTools(
    'has all of a long name of the case, and of one that no field takes as much as two lines',
    async () => {
      const text = unspaced(flowingText((await made(oneFilm)).bytes));
      expect(text).toContain(unspaced(LONG_NAME));
      const longer = await made(oneFilm, SHIPPED_LIMIT_SETS, `${LONG_NAME.repeat(4)} END`);
      expectNothingOverlaps(longer.pages[0]!);
      const cut = unspaced(flowingText(longer.bytes));
      expect(cut).toContain(unspaced(LONG_NAME));
      expect(cut).toContain('…');
      expect(cut).not.toContain('END');
    },
  );
});
