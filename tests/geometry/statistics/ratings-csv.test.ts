import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ratingsCsvSentence,
  readRatingsCsv,
  writeRatingsCsv,
} from '../../../src/geometry/statistics/ratings-csv.ts';
import { errorOf, unwrap } from '../support.ts';

describe('a table of readings', () => {
  it('comes back as it was written, whatever the labels hold', () => {
    const label = fc
      .string({
        unit: fc.constantFrom('a', 'B', '7', ' ', ',', ';', '"', '\n', '=', '-', '+', "'", '@', 'é'),
        minLength: 1,
      })
      .map((text) => text.trim())
      .filter((text) => text !== '');
    const reading = fc.record({
      subject: label,
      rater: label,
      value: fc.double({ noNaN: true, noDefaultInfinity: true }),
    });
    fc.assert(
      fc.property(fc.array(reading, { minLength: 1 }), (readings) => {
        const back = unwrap(readRatingsCsv(writeRatingsCsv(readings)));
        expect(back.map(({ subject, rater }) => [subject, rater])).toEqual(
          readings.map(({ subject, rater }) => [subject, rater]),
        );
        // −0 is written as 0.
        expect(back.every(({ value }, i) => value === readings[i]?.value)).toBe(true);
      }),
    );
    for (const name of ["'", "''=1", "'=1", "'-5", "'-x", '-5', "O'Hara"]) {
      const table = [{ subject: name, rater: name, value: 1 }];
      expect(unwrap(readRatingsCsv(writeRatingsCsv(table)))).toEqual(table);
    }
    const formula = [{ subject: '=1+1', rater: '-cmd', value: -2.5 }];
    expect(writeRatingsCsv(formula)).toBe("subject,rater,value\r\n'=1+1,'-cmd,-2.5\r\n");
    expect(unwrap(readRatingsCsv(writeRatingsCsv(formula)))).toEqual(formula);
  });

  it('reads RFC 4180 and what spreadsheets make of it', () => {
    // RFC 4180, section 2: quoted cells, doubled quotation marks, line breaks within a cell.
    const text = '\uFEFFRater,note,Value,subject\r\n"A ""first""",x,41.5,"film\n1"\r\n\r\nB,,40,film 2';
    expect(unwrap(readRatingsCsv(text))).toEqual([
      { subject: 'film\n1', rater: 'A "first"', value: 41.5 },
      { subject: 'film 2', rater: 'B', value: 40 },
    ]);
    expect(unwrap(readRatingsCsv('subject;rater;value\n1;A;41,5\n'))).toEqual([
      { subject: '1', rater: 'A', value: 41.5 },
    ]);
  });

  it('says what is wrong and in which line', () => {
    expect(errorOf(readRatingsCsv('subject,value\n1,2'))).toEqual({
      kind: 'no-such-column',
      column: 'rater',
      found: ['subject', 'value'],
    });
    expect(errorOf(readRatingsCsv('subject,rater,value\n1,A,2\n2,A,n/a'))).toEqual({
      kind: 'not-a-number',
      line: 3,
      text: 'n/a',
    });
    expect(errorOf(readRatingsCsv('subject,rater,value\n1,A,'))).toMatchObject({ kind: 'not-a-number' });
    expect(errorOf(readRatingsCsv('subject,rater,value\n"x\ny",A,1\n,A,2'))).toEqual({
      kind: 'empty-label',
      line: 4,
      column: 'subject',
    });
    expect(errorOf(readRatingsCsv('subject,rater,value\n1,"A,2\n'))).toEqual({
      kind: 'open-quotation',
      line: 2,
    });
    expect(errorOf(readRatingsCsv('subject,rater,value\n'))).toEqual({ kind: 'no-readings' });
    const said = ratingsCsvSentence({ kind: 'not-a-number', line: 3, text: 'n/a' }, 'class.csv');
    expect(said).toMatch(/^class\.csv was not read: line 3 has “n\/a”/);
    expect(said).toMatch(/decimal point/);
  });
});
