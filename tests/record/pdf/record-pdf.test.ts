import { encode } from 'fast-png';
import { beforeAll, describe, expect, it } from 'vitest';
import { type CaseDocument, EXAMINATION_ID } from '../../../src/case/document.ts';
import { markedFilms } from '../../../src/case/film-marks.ts';
import { QUANTITY_NAMES } from '../../../src/case/format.ts';
import type { KnownReading } from '../../../src/case/reading.ts';
import { filmNames } from '../../../src/case/readings/names.ts';
import { recordPdf } from '../../../src/record/pdf/record-pdf.ts';
import type { RecordPdfInput } from '../../../src/record/pdf/record-sections.ts';
import { knownReadings } from '../../../src/record/readings.ts';
import { checksFor } from '../../../src/tolerance/checks.ts';
import { caseOf, failed, film, injury, succeeded } from '../../case/samples.ts';
import { assessed, largeCase, sampleCase } from '../sample.ts';
import { expectPlainPdf, flowingText, itWithPdfTools, readPdf, unspaced } from './checked-pdf.ts';
import { FACES } from './faces.ts';
import { sizesOf } from './page-layout.ts';

/** A picture of one grey, whose file says a name in a text chunk (PNG, 11.3.4.3 tEXt). */
const PICTURE = encode({
  width: 40,
  height: 50,
  data: new Uint8Array(40 * 50 * 3).fill(60),
  channels: 3,
  text: { Comment: 'Quillfeather' },
});

const inputFor = (overrides: Partial<RecordPdfInput> = {}): RecordPdfInput => {
  const document = overrides.document ?? sampleCase();
  return {
    document,
    assessment: assessed(document),
    faces: FACES,
    picture: { png: PICTURE, filmNumbers: [1] },
    label: null,
    writtenOn: '1 March 2026',
    softwareVersion: '0.1.0',
    ...overrides,
  };
};

/** A definition as far as it holds on any film; which film it is of, the record says over the reading. */
function definitionAlone(document: CaseDocument, { definition, filmId }: KnownReading): string {
  const name = filmNames(markedFilms(document).map((marked) => marked.film)).get(filmId);
  return lowerFirst(definition.replace(` on the ${name}`, '').replace(`, for the ${name}`, ''));
}
const lowerFirst = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;

const pdfOf = async (overrides: Partial<RecordPdfInput> = {}) =>
  succeeded(await recordPdf(inputFor(overrides))).bytes;

describe('recordPdf', () => {
  let bytes: Uint8Array;
  let read: string | null = null;
  const all = (): string => {
    read ??= unspaced(flowingText(bytes));
    return read;
  };
  beforeAll(async () => {
    bytes = await pdfOf();
  });

  itWithPdfTools('is one sound page that names nobody, though the file of the picture does', () => {
    expect(new TextDecoder('latin1').decode(PICTURE)).toContain('Quillfeather');
    expect(expectPlainPdf(bytes).pages).toBe(1);
  });

  itWithPdfTools('says the injury, the films with their days, and the picture', () => {
    const text = all();
    for (const said of [
      'Right hand, small finger, neck',
      'transverse fracture, adult',
      'Lateral view, right hand (injured hand), day 0 after the injury.',
      'Lateral view, left hand (other hand), day not said.',
      'Scale from Imager Pixel Spacing (0018,1164), at the detector',
      '1 March 2026',
    ]) {
      expect(text).toContain(unspaced(said));
    }
  });

  itWithPdfTools(
    'says every reading with its interval, its definition and what the interval leaves out',
    () => {
      const text = all();
      const known = knownReadings(assessed(sampleCase()));
      expect(known.length).toBeGreaterThan(7);
      for (const reading of known) {
        expect(text).toContain(unspaced(QUANTITY_NAMES[reading.quantity]));
        expect(text).toContain(unspaced(definitionAlone(sampleCase(), reading)));
        for (const sentence of reading.leavesOut.split(/(?<=\.) /))
          expect(text).toContain(unspaced(sentence));
        // GUM 7.2.6: no more digits than the uncertainty bears. Rounded here again.
        const decimals = reading.expandedUncertainty >= 2 ? 0 : 1;
        expect(text).toContain(`${Math.abs(reading.value).toFixed(decimals)}`);
        expect(text).toContain(`±${reading.expandedUncertainty.toFixed(decimals)}`);
      }
    },
  );

  itWithPdfTools(
    'says each outcome with its set, source and revision, each caution, and what was not checked',
    () => {
      const text = all();
      const { comparisons, cautions, measurementVersion } = assessed(sampleCase());
      for (const { words, limitSet } of comparisons) {
        expect(text).toContain(unspaced(words));
        expect(text).toContain(unspaced(limitSet.source.citation));
        expect(text).toContain(unspaced(`${limitSet.title}, revision ${limitSet.revision}`));
      }
      for (const { title, about } of cautions) {
        if (about !== 'use') expect(text).toContain(unspaced(title));
      }
      for (const { question } of checksFor(injury())) expect(text).toContain(unspaced(question));
      expect(text).toContain('Notchecked');
      expect(text).toContain(`measurementversion${measurementVersion}`);
      expect(text).toContain(unspaced('Education and a second look only. Not a medical device'));
    },
  );

  itWithPdfTools('says the answers of the examination', async () => {
    const document = caseOf(...Object.values(sampleCase().records), {
      kind: 'examination',
      id: EXAMINATION_ID,
      answers: { rotation: 'yes', 'open-fracture': 'no' },
    });
    const answered = unspaced(flowingText(await pdfOf({ document })));
    expect(answered).toContain('2answered');
    expect(answered).toMatch(/Onmakingafist,.*?Yes/);
    expect(answered).toMatch(/Istheskinbrokenoverornearthefracture\?No/);
  });

  itWithPdfTools(
    'is one page of readable type for three films and seven limit sets, each named',
    async () => {
      const document = largeCase();
      const made = succeeded(await recordPdf(inputFor({ document })));
      expect(readPdf(made.bytes).pages).toBe(1);
      // Common practice, no source: 6 points is the least that print is read at.
      expect(Math.min(...made.pages.flatMap(sizesOf))).toBeGreaterThan(6);
      const text = unspaced(flowingText(made.bytes));
      const { comparisons } = assessed(document);
      expect(new Set(comparisons.map(({ limitSet }) => limitSet.id)).size).toBe(7);
      for (const { limitSet, outcome, reason } of comparisons) {
        const { title, revision, source } = limitSet;
        expect(text).toContain(unspaced(`${title}, revision ${revision}: ${source.citation}`));
        if (reason !== 'no-row') expect(text.toLowerCase()).toContain(unspaced(outcome));
      }
      for (const { question } of checksFor(injury())) expect(text).toContain(unspaced(question));
    },
  );

  itWithPdfTools('is one page for the same case with an examination that was half answered', async () => {
    const document = caseOf(...Object.values(largeCase().records), {
      kind: 'examination',
      id: EXAMINATION_ID,
      answers: { rotation: 'yes', 'open-fracture': 'yes', comminuted: 'no', 'several-metacarpals': 'no' },
    });
    const bytes = await pdfOf({ document });
    expect(readPdf(bytes).pages).toBe(1);
    const text = unspaced(flowingText(bytes));
    expect(text).toMatch(/Istheskinbrokenoverornearthefracture\?Yes/);
    expect(text).toContain('Openfracture.');
    for (const { question } of checksFor(injury())) expect(text).toContain(unspaced(question));
  });

  itWithPdfTools('names two films that are pictured from the left, and counts the others', async () => {
    const document = largeCase();
    const picture = { png: PICTURE, filmNumbers: [3, 1] };
    const text = unspaced(flowingText(await pdfOf({ document, picture })));
    expect(text).toContain(
      unspaced('Film 3, left. PA view, right hand (injured hand), day 7 after the injury.'),
    );
    expect(text).toContain(unspaced('Film 1, right. Lateral view'));
    expect(text).toContain(unspaced('The other film is not pictured.'));
  });

  itWithPdfTools('is written without a picture, and where nothing was measured', async () => {
    const document = caseOf(film('film-1'));
    const empty = await pdfOf({ document, picture: null });
    expect(unspaced(flowingText(empty))).toContain('Nothingwasmeasured.');
    expect(readPdf(empty).pages).toBe(1);
  });

  it('gives the same bytes for the same record', async () => {
    expect(Buffer.compare(await pdfOf(), await pdfOf())).toBe(0);
  });

  itWithPdfTools('sets accents, signs and the two that its fonts lack', async () => {
    const label = 'Übung Łukasz Čapek Ñandú à ç ø ß, ≤ 5° ± 2, ≥ 10 − 3 – 4 · 2 × 3 µ ½ “a” ‘b’ …';
    const page = flowingText(await pdfOf({ label }));
    for (const word of label.split(' ')) expect(page, word).toContain(word);
  });

  it('names the characters that no font has', async () => {
    expect(failed(await recordPdf(inputFor({ label: 'Fall 手 Ω 手' })))).toEqual({
      kind: 'missing-glyph',
      characters: ['手', 'Ω'],
    });
  });

  it('names a damaged font and a damaged picture', async () => {
    const [latin] = FACES.sans as [Uint8Array];
    const cut = { ...FACES, sans: [latin.subarray(0, 2000)] };
    expect(failed(await recordPdf(inputFor({ faces: cut }))).kind).toBe('font-unreadable');
    const noFont = { ...FACES, serif: [new TextEncoder().encode('no font at all, only words')] };
    expect(failed(await recordPdf(inputFor({ faces: noFont }))).kind).toBe('font-unreadable');
    const picture = { png: PICTURE.subarray(0, 30), filmNumbers: [1] };
    expect(failed(await recordPdf(inputFor({ picture }))).kind).toBe('picture-unreadable');
  });
});
