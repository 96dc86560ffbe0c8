import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { degrees } from '../../../src/geometry/units.ts';
import { drawMetacarpal, type Place } from '../../../src/record/pdf/bone-drawing.ts';
import { type PatientPdfInput, patientPdf } from '../../../src/record/pdf/patient-pdf.ts';
import { PATIENT_LANGUAGES, PATIENT_WORDS } from '../../../src/record/pdf/patient-words.ts';
import { RAYS, REGIONS } from '../../../src/tolerance/anatomy.ts';
import { caseOf, failed, film, injury, succeeded } from '../../case/samples.ts';
import { assessed, sampleCase } from '../sample.ts';
import { expectPlainPdf, flowingText, itWithPdfTools, unspaced } from './checked-pdf.ts';
import { FACES } from './faces.ts';

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
    found.normal(12),
    drawing.simple,
    ...meaning.lines,
    ...next.lines,
    ...warning.lines,
    foot,
  ].flatMap((text) => text.split(/(?<=[.!?]) /));
}

/**
 * Flesch–Kincaid grade (Kincaid 1975, from memory): 0.39 words per sentence + 11.8 syllables per word − 15.59. A
 * child of twelve is in grade 6 or 7. Syllables are counted as runs of vowels, a silent e at the end left out.
 */
it('the English sheet is for a reader of twelve, by Flesch–Kincaid', () => {
  const text = sentencesOf('en');
  const all = text.flatMap((sentence) => sentence.match(/[A-Za-z]+/g) ?? []);
  const syllables = all.reduce((sum, word) => {
    const runs =
      word
        .toLowerCase()
        .replace(/e$/, '')
        .match(/[aeiouy]+/g)?.length ?? 1;
    return sum + Math.max(1, runs);
  }, 0);
  const grade = (0.39 * all.length) / text.length + (11.8 * syllables) / all.length - 15.59;
  expect(grade).toBeLessThan(6.5);
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
