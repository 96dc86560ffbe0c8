import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FilmRecord } from '../../../src/case/document.ts';
import { degrees } from '../../../src/geometry/units.ts';
import { drawMetacarpal, type Place } from '../../../src/record/pdf/bone-drawing.ts';
import type { PdfFile } from '../../../src/record/pdf/page.ts';
import { type PatientPdfInput, patientPdf } from '../../../src/record/pdf/patient-pdf.ts';
import { PATIENT_LANGUAGES, PATIENT_WORDS } from '../../../src/record/pdf/patient-words.ts';
import { recordErrorSentence } from '../../../src/record/record-error.ts';
import { RAYS, REGIONS } from '../../../src/tolerance/anatomy.ts';
import { caseOf, failed, film, free, injury, mark, succeeded } from '../../case/samples.ts';
import { assessed, sampleCase } from '../sample.ts';
import { expectPlainPdf, flowingText, itWithPdfTools, unspaced } from './checked-pdf.ts';
import { FACES } from './faces.ts';
import { expectNothingOverlaps } from './page-layout.ts';

const inputFor = (overrides: Partial<PatientPdfInput> = {}): PatientPdfInput => {
  const document = overrides.document ?? sampleCase();
  return {
    document,
    assessment: assessed(document),
    faces: FACES,
    language: 'en',
    clinicWords: null,
    ...overrides,
  };
};
const sheetOf = async (overrides: Partial<PatientPdfInput> = {}) =>
  succeeded(await patientPdf(inputFor(overrides))).bytes;

describe.each(PATIENT_LANGUAGES)('patientPdf in %s', (language) => {
  const words = PATIENT_WORDS[language];

  itWithPdfTools('is one sound page that names nobody', async () => {
    const { pages, text } = expectPlainPdf(await sheetOf({ language }));
    expect(pages).toBe(1);
    expect(text).toContain('35°');
    expect(text).not.toContain('Invented case');
  });

  itWithPdfTools('says what was found, what may come, and every warning sign', async () => {
    const page = unspaced(flowingText(await sheetOf({ language })));
    const known = assessed(sampleCase()).readings.find(({ quantity }) => quantity === 'angulation')!;
    if (known.state !== 'known') throw new Error('the sample has an angle');
    const bend = Math.round(Math.abs(known.value));
    for (const said of [
      words.title,
      words.found.bone('small'),
      words.found.where.neck,
      words.found.bend(bend),
      words.found.sure(
        Math.round(Math.abs(known.value) - known.expandedUncertainty),
        Math.round(Math.abs(known.value) + known.expandedUncertainty),
      ),
      ...words.meaning.lines,
      ...words.next.lines,
      ...words.warning.lines,
      words.clinic.heading,
      words.foot,
    ]) {
      expect(page).toContain(unspaced(said));
    }
  });

  itWithPdfTools('fits every finger and region, and the words of a clinic', async () => {
    for (const [index, region] of REGIONS.entries()) {
      const document = caseOf(
        ...Object.values(sampleCase().records),
        injury({ ray: RAYS[index]!, region, hand: 'left' }),
      );
      const clinicWords = 'Monday, 9 o’clock.\n\nBring your splint: Ärztin Łaska.';
      const bytes = await sheetOf({ language, document, clinicWords });
      expect(expectPlainPdf(bytes).pages).toBe(1);
      const page = unspaced(flowingText(bytes));
      expect(page).toContain(unspaced('Bring your splint: Ärztin Łaska.'));
      expect(page).toContain(unspaced(words.found.bone(RAYS[index]!)));
      expect(page).toContain(unspaced(words.found.where[region]));
    }
  });

  it('breaks a word of the clinic that is longer than a line', async () => {
    const word = 'Unfallchirurgie'.repeat(12);
    const { pages } = succeeded(await patientPdf(inputFor({ language, clinicWords: `Call ${word} first.` })));
    expect(pages).toHaveLength(1);
    for (const page of pages) expectNothingOverlaps(page);
    const texts = pages.flat().flatMap((one) => (one.kind === 'text' ? [one.text] : []));
    expect(unspaced(texts.join(''))).toContain(word);
  });

  /**
   * LIX (Björnsson 1968): words per sentence plus the share of words of more than six letters in percent; below 40
   * is easy to read. The formula and the bound from memory.
   */
  it('is easy to read, by LIX', () => {
    const text = sentencesOf(language);
    const all = text.flatMap((sentence) => sentence.match(/\p{L}+/gu) ?? []);
    const long = all.filter((word) => word.length > 6).length;
    const lix = all.length / text.length + (100 * long) / all.length;
    expect(all.length).toBeGreaterThan(120);
    expect(lix).toBeLessThan(40);
    for (const sentence of text) expect((sentence.match(/\p{L}+/gu) ?? []).length).toBeLessThanOrEqual(20);
  });
});

function sentencesOf(language: (typeof PATIENT_LANGUAGES)[number]): readonly string[] {
  const { found, meaning, next, warning, foot, drawing } = PATIENT_WORDS[language];
  return [
    found.bone('small'),
    ...Object.values(found.where),
    found.bend(35),
    found.sure(31, 39),
    found.film(0),
    found.film(14),
    found.normal(12),
    drawing.simple,
    ...meaning.lines,
    ...next.lines,
    ...warning.lines,
    foot,
  ].flatMap((text) => text.split(/(?<=[.!?]) /));
}

/** Words of a text, and in how many syllables: runs of vowels, in English without a silent e at the end. */
function syllablesOf(text: string, language: (typeof PATIENT_LANGUAGES)[number]): readonly number[] {
  return (text.match(/\p{L}+/gu) ?? []).map((word) => {
    const heard = language === 'en' ? word.toLowerCase().replace(/e$/, '') : word.toLowerCase();
    return Math.max(1, heard.match(/[aeiouyäöü]+/g)?.length ?? 0);
  });
}

/**
 * Grade of the American school: 0.39 words per sentence + 11.8 syllables per word − 15.59. Kincaid, Fishburne,
 * Rogers and Chissom, Research Branch Report 8-75, Naval Technical Training, Millington 1975. A child of twelve is
 * in grade 6 or 7.
 */
const fleschKincaid = (words: number, sentences: number, syllables: number): number =>
  (0.39 * words) / sentences + (11.8 * syllables) / words - 15.59;

/**
 * Grade of the Austrian school, the fourth of the Viennese formulas for non-fiction: 0.2656 words per sentence +
 * 0.2744 times the percentage of words of three syllables and more − 1.693. Bamberger and Vanecek, Lesen, Verstehen,
 * Lernen, Schreiben, Jugend und Volk 1984. A child of twelve is in grade 6 or 7.
 */
const viennese = (words: number, sentences: number, long: number): number =>
  (0.2656 * words) / sentences + (0.2744 * 100 * long) / words - 1.693;

describe('for a reader of twelve', () => {
  it('counts as published examples do', () => {
    // The readme of the npm package flesch-kincaid 2.0.1: 1 sentence, 13 words, 26 syllables make 13.08.
    expect(fleschKincaid(13, 1, 26)).toBeCloseTo(13.08, 2);
    // By hand: Ein Kno-chen in Ih-rer Hand ist ge-bro-chen.
    expect(syllablesOf('Ein Knochen in Ihrer Hand ist gebrochen.', 'de')).toEqual([1, 2, 1, 2, 1, 1, 3]);
    // By hand: A bone in your hand is bro-ken.
    expect(syllablesOf('A bone in your hand is broken.', 'en')).toEqual([1, 1, 1, 1, 1, 1, 2]);
  });

  it('the English sheet, by Flesch–Kincaid', () => {
    const sentences = sentencesOf('en');
    const counts = sentences.flatMap((sentence) => syllablesOf(sentence, 'en'));
    const syllables = counts.reduce((sum, count) => sum + count, 0);
    expect(fleschKincaid(counts.length, sentences.length, syllables)).toBeLessThan(6.5);
  });

  it('the German sheet, by the fourth Viennese formula', () => {
    const sentences = sentencesOf('de');
    const counts = sentences.flatMap((sentence) => syllablesOf(sentence, 'de'));
    const long = counts.filter((count) => count >= 3).length;
    expect(viennese(counts.length, sentences.length, long)).toBeLessThan(6.5);
  });
});

it('the languages say the same things: as many lines, every number that is given', () => {
  const shapeOf = (value: unknown): unknown => {
    if (typeof value === 'function') return 'function';
    if (Array.isArray(value)) return value.map(shapeOf);
    if (typeof value === 'object' && value !== null) {
      return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, shapeOf(part)]));
    }
    return typeof value;
  };
  expect(shapeOf(PATIENT_WORDS.de)).toEqual(shapeOf(PATIENT_WORDS.en));
  for (const language of PATIENT_LANGUAGES) {
    const { found, drawing } = PATIENT_WORDS[language];
    expect(found.bend(41)).toContain('41');
    expect(found.sure(36, 47)).toMatch(/36.*47/);
    expect(found.normal(13)).toContain('13');
    expect(found.film(9)).toContain('9');
    expect(new Set([0, 1, 2].map(found.film)).size).toBe(3);
    expect(drawing.bent(41)).toContain('41');
    expect(new Set(RAYS.map((ray) => found.bone(ray))).size).toBe(RAYS.length);
    expect(found.bone(null).length).toBeGreaterThan(10);
  }
});

describe('patientPdf', () => {
  it('is not made without an angle of the injured hand', async () => {
    const document = caseOf(film('film-1'));
    expect(failed(await patientPdf(inputFor({ document })))).toEqual({ kind: 'no-angle' });
  });

  const bent = (id: string, columns: number, about: Partial<FilmRecord>) => [
    film(id, about),
    mark(`${id}/p`, id, 'proximal-axis', free([400, 1000], [400, 700])),
    mark(`${id}/d`, id, 'distal-axis', free([400, 700], [400 + columns, 600])),
  ];
  const textOf = ({ pages }: PdfFile) =>
    unspaced(
      pages
        .flat()
        .map((one) => (one.kind === 'text' ? one.text : ''))
        .join(' '),
    );

  it('tells the newest angle: of one day the film after the reduction, whichever was added first', async () => {
    // atan(100/100) is 45°, atan(20/100) is 11.3°.
    const before = bent('b', 100, { day: 0, moment: 'before-reduction' });
    const after = bent('a', 20, { day: 0, moment: 'after-reduction' });
    for (const records of [
      [...before, ...after],
      [...after, ...before],
    ]) {
      const document = caseOf(injury(), ...records, film('undated', { day: null }));
      const text = textOf(succeeded(await patientPdf(inputFor({ document }))));
      expect(text).toContain(unspaced('about 11 degrees'));
      expect(text).toContain(unspaced('on the day you got hurt'));
    }
  });

  it('says of which day the film is, and nothing of it where a lone film has none', async () => {
    const on = async (day: number | null) => {
      const document = caseOf(injury(), ...bent('one', 20, { day }));
      return textOf(succeeded(await patientPdf(inputFor({ document }))));
    };
    expect(await on(9)).toContain(unspaced('This was 9 days after you got hurt'));
    expect(await on(null)).not.toContain(unspaced('got hurt'));
  });

  it('is not made where a film without a day may be the latest', async () => {
    const [dated, undated] = [bent('old', 100, { day: 0 }), bent('new', 20, { day: null })];
    const document = caseOf(injury(), ...dated, ...undated);
    const found = failed(await patientPdf(inputFor({ document })));
    expect(found).toEqual({ kind: 'undated-films', films: ['undated lateral film'] });
    expect(recordErrorSentence(found, 'The patient sheet')).toBe(
      'The patient sheet cannot tell which film is the latest: there is no day for the undated lateral film. Give each film its day after the injury.',
    );
    const seenOtherwise = caseOf(injury(), ...dated, ...bent('new', 20, { day: null, view: 'oblique' }));
    const text = textOf(succeeded(await patientPdf(inputFor({ document: seenOtherwise }))));
    expect(text).toContain(unspaced('about 45 degrees'));
  });

  it('cuts nothing that the clinic wrote', async () => {
    const clinicWords = Array.from({ length: 30 }, (_, line) => `Line ${line}.`).join('\n');
    expect(failed(await patientPdf(inputFor({ clinicWords })))).toMatchObject({ kind: 'words-too-long' });
    expect(failed(await patientPdf(inputFor({ clinicWords: 'Termin 手' })))).toEqual({
      kind: 'missing-glyph',
      characters: ['手'],
    });
  });
});

describe('drawMetacarpal', () => {
  const direction = ([[x1, y1], [x2, y2]]: readonly [Place, Place]) => Math.atan2(y2 - y1, x2 - x1);

  it('bends the bone by the measured angle, wherever it is broken', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 90, noNaN: true }),
        fc.constantFrom(...REGIONS),
        (bend, region) => {
          const { axes, arc, pieces } = drawMetacarpal(degrees(bend), region, [100, 300], 150);
          const [lower, upper] = axes;
          const turn = ((direction(upper!) - direction(lower!)) * 180) / Math.PI;
          expect(turn).toBeCloseTo(bend, 6);
          expect(pieces).toHaveLength(2);
          // The arc runs from one axis to the other about the point where they meet.
          const [from, to] = [arc[0]!, arc.at(-1)!];
          const [meet] = upper!;
          expect(
            (Math.atan2(to[1] - meet[1], to[0] - meet[0]) * 180) / Math.PI -
              (direction(upper!) * 180) / Math.PI,
          ).toBeCloseTo(0, 6);
          expect((Math.atan2(from[1] - meet[1], from[0] - meet[0]) * 180) / Math.PI).toBeCloseTo(-90, 6);
        },
      ),
    );
  });

  it('draws a whole bone in one piece, as high as it is asked to be', () => {
    const { pieces, axes, arc } = drawMetacarpal(null, 'neck', [100, 300], 150);
    expect([pieces.length, axes.length, arc.length]).toEqual([1, 1, 0]);
    const heights = [...pieces[0]!.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, , y]) => Number(y));
    expect(Math.max(...heights) - Math.min(...heights)).toBeCloseTo(150, 1);
  });
});
