import { describe, expect, it } from 'vitest';
import { EXAMINATION_ID } from '../../src/case/document.ts';
import { noteText } from '../../src/record/note.ts';
import { knownReadings } from '../../src/record/readings.ts';
import { caseOf, failed, film, mark, succeeded } from '../case/samples.ts';
import { expectNoIdentity } from './identities.ts';
import { assessed, largeCase, sampleCase } from './sample.ts';

const noteOf = (document = sampleCase()) => succeeded(noteText(document, assessed(document), '0.1.0'));

describe('noteText', () => {
  it('is one paragraph that says the injury and every reading with its interval', () => {
    const note = noteOf();
    expect(note).not.toMatch(/[\n\r\t\u2009]/);
    expect(note.startsWith('Right hand, small finger, neck (transverse fracture, adult).')).toBe(true);
    for (const reading of knownReadings(assessed(sampleCase()))) {
      // Whole degrees and tenths of a millimetre, as rounded here by hand from the assessment.
      const shown = Math.abs(reading.value).toFixed(reading.expandedUncertainty >= 2 ? 0 : 1);
      expect(note, reading.id).toContain(`${shown}${reading.unit === 'degrees' ? '°' : ' '}`);
    }
    expect(note).toContain('axes by the canal and the centre of the head');
    expect(note).toContain('apex dorsal');
    expect(note).toContain('95 %');
    expect(note).toContain('Not a medical device');
  });

  it('says which film each number and each limit is of, and where a number from another film comes from', () => {
    const document = largeCase();
    const note = noteOf(document);
    const clauses = note.split(/(?=Film \d, |Limits for )/);
    const clauseOf = (film: number) => clauses.find((clause) => clause.startsWith(`Film ${film}, `)) ?? '';
    expect(clauseOf(1)).toMatch(/^Film 1, injured hand, lateral, day 0: angulation 35° ±/);
    expect(clauseOf(2)).toMatch(/^Film 2, other hand, lateral: angulation/);
    expect(clauseOf(3)).toMatch(/^Film 3, injured hand, PA, day 7: coronal angulation/);
    expect(clauseOf(1)).toMatch(/shortening, by the other hand [^;]*\(from film 2\)/);
    expect(note).toContain('Limits for angulation on film 1: Common practice (adult): ');
    expect(note).toContain('Limits for shortening (by the other hand) on film 1: ');
    expect(note).toContain('No limit on file for coronal angulation of the small finger neck in ');
    // A sentence is said once.
    const sentences = note.match(/No limit on file for [^.]*\./g) ?? [];
    expect(new Set(sentences).size).toBe(sentences.length);
  });

  it('gives the source of a published normal once, and then says on which film', () => {
    // The same axes on a later film: the normal of these constructions.
    const first = Object.values(sampleCase().records).filter(({ id }) => !id.startsWith('film-2'));
    const later = first.flatMap((record) =>
      record.kind === 'mark' ? [mark(`later/${record.role}`, 'later', record.role, record.shape)] : [],
    );
    const document = caseOf(...first, film('later', { day: 7 }), ...later);
    const note = noteOf(document);
    expect(note.match(/Rivlin/g)).toHaveLength(1);
    expect(note).toMatch(/Film 1, [^.]*normal 12° [^;]*\[Published normal 12°/);
    expect(note).toMatch(/Film 2, [^.]*normal 12° [^;]*\[as on film 1\]/);
  });

  it('gives the outcome of each comparison, and the cautions, worst first', () => {
    const note = noteOf();
    const { comparisons, cautions } = assessed(sampleCase());
    expect(comparisons.length).toBeGreaterThan(0);
    for (const { outcome, limitSet } of comparisons) {
      expect(note).toContain(`${limitSet.title}: ${outcome}`);
    }
    const places = cautions
      .filter(({ grade, about }) => grade !== 'note' && about !== 'use')
      .map(({ title }) => note.indexOf(title));
    expect(places.length).toBeGreaterThan(2);
    expect(places.every((place) => place > 0)).toBe(true);
    expect(places).toEqual(places.toSorted((one, other) => one - other));
  });

  it('says how much of the examination is open', () => {
    const answered = caseOf(...Object.values(sampleCase().records), {
      kind: 'examination',
      id: EXAMINATION_ID,
      answers: { rotation: 'no', 'open-fracture': 'no' },
    });
    const openOf = (note: string) => Number(/ (\d+) are not answered/.exec(note)?.[1]);
    expect(openOf(noteOf()) - openOf(noteOf(answered))).toBe(2);
  });

  it('holds nothing that names the patient, and not the name of the case', () => {
    expectNoIdentity(noteOf());
    // `injury()` of the samples labels the case so.
    expect(noteOf()).not.toContain('Invented case');
  });

  it('is not written without a reading', () => {
    const document = caseOf(film('film-1'));
    expect(failed(noteText(document, assessed(document), '0.1.0'))).toEqual({ kind: 'no-readings' });
  });
});
