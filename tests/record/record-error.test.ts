import { describe, expect, it } from 'vitest';
import { type RecordError, recordErrorSentence } from '../../src/record/record-error.ts';

/** One of every kind; the compiler asks for each new one. */
const EVERY: { readonly [Kind in RecordError['kind']]: Extract<RecordError, { kind: Kind }> } = {
  'not-dicom': { kind: 'not-dicom' },
  'source-damaged': { kind: 'source-damaged', detail: 'truncated' },
  'no-ids': { kind: 'no-ids', missing: ['SOPInstanceUID', 'StudyInstanceUID'] },
  'no-readings': { kind: 'no-readings' },
  'different-patients': { kind: 'different-patients', films: ['lateral film of day 0', 'PA film of day 3'] },
  'no-such-film': { kind: 'no-such-film' },
  'turn-not-quarter': { kind: 'turn-not-quarter', turnDegrees: 30.4 },
  'colour-film': { kind: 'colour-film', photometric: 'RGB' },
  'nothing-placed': { kind: 'nothing-placed' },
  'no-pixels': { kind: 'no-pixels', columns: 4, rows: 5, bytes: 59, expectedBytes: 60 },
  'too-large': { kind: 'too-large', columns: 9000, rows: 9000, limitPixels: 64_000_000, limitSide: 65_535 },
  'picture-not-looked-at': { kind: 'picture-not-looked-at' },
  'value-too-long': { kind: 'value-too-long', keyword: 'PatientID', length: 80, limit: 64 },
  'holds-backslash': { kind: 'holds-backslash', keyword: 'PatientID' },
  'object-damaged': { kind: 'object-damaged', detail: 'unexpected end' },
  'other-object': { kind: 'other-object', sopClassUid: '1.2.3' },
  foreign: { kind: 'foreign', manufacturer: 'Invented Works' },
  'mark-unreadable': { kind: 'mark-unreadable', which: 3, problem: 'its role NAIL is not known' },
  'missing-glyph': { kind: 'missing-glyph', characters: ['手', 'Ω'] },
  'font-unreadable': { kind: 'font-unreadable', detail: 'a table is cut short' },
  'picture-unreadable': { kind: 'picture-unreadable', detail: 'no PNG' },
  'words-too-long': { kind: 'words-too-long', neededPoints: 400, roomPoints: 100 },
  'no-angle': { kind: 'no-angle' },
  'undated-films': { kind: 'undated-films', films: ['undated lateral film (1)', 'undated lateral film (2)'] },
};

/** The numbers and names that a sentence must repeat, so that the person can find what it is about. */
const factsOf = ({ kind, ...facts }: RecordError): readonly string[] =>
  kind === 'words-too-long'
    ? ['25 %']
    : Object.values(facts).flatMap((fact) =>
        (Array.isArray(fact) ? fact : [fact]).map((value: unknown) =>
          typeof value === 'number' ? Math.round(value).toLocaleString('en-GB') : String(value),
        ),
      );

describe('recordErrorSentence', () => {
  it.each(Object.values(EVERY))('says what happened to what, and what to do: $kind', (error) => {
    const sentence = recordErrorSentence(error, 'Film 2');
    expect(sentence.startsWith('Film 2 ')).toBe(true);
    const [happened, next] = sentence.split('. ');
    expect(happened!.length).toBeGreaterThan(15);
    expect(next).toMatch(/^[A-Z].{8,}/);
    expect(sentence.endsWith('.')).toBe(true);
    expect(sentence).not.toMatch(/undefined|null|NaN|\[object/);
    for (const fact of factsOf(error)) expect(sentence).toContain(fact);
  });

  it('names a character that cannot be printed by its number', () => {
    expect(recordErrorSentence(EVERY['missing-glyph'], 'The record')).toContain('U+624B');
  });
});
