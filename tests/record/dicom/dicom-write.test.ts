import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimalString, writeDicom } from '../../../src/record/dicom/dicom-write.ts';
import { writtenAt } from '../../../src/record/dicom/modules.ts';
import { secondaryCaptureDataset } from '../../../src/record/dicom/sc.ts';
import { readSource } from '../../../src/record/dicom/source.ts';
import { failed, succeeded } from '../../case/samples.ts';
import { inFolder, itNeeds, runTool } from '../../outside-tools.ts';
import { SERIES_UID, sourceBytes, sourceOf, writingFacts } from '../sample.ts';
import { asJson, firstOf, itWithDicomTools, written } from './checked.ts';

const MINIMAL = { SOPClassUID: '1.2.840.10008.5.1.4.1.1.7', SOPInstanceUID: '2.25.7' };

describe('writeDicom', () => {
  itWithDicomTools('writes text in UTF-8, names in several spellings, and values that are not there', () => {
    // PS3.5 H.3.1: a name in three spellings.
    const name = 'Yamada^Tarou=山田^太郎=やまだ^たろう';
    const object = asJson(
      written({ ...MINIMAL, PatientName: name, StudyID: '', ReferencedImageSequence: [] }),
    );
    expect(firstOf(object, '00080005')).toBe('ISO_IR 192');
    expect(firstOf(object, '00100010')).toEqual({
      Alphabetic: 'Yamada^Tarou',
      Ideographic: '山田^太郎',
      Phonetic: 'やまだ^たろう',
    });
    expect(object['00200010']).toEqual({ vr: 'SH' });
    expect(object['00081140']?.Value ?? []).toEqual([]);
  });

  // PS3.5 table 6.2-1.
  it.each([
    ['PatientID', 'LO', 64],
    ['StudyID', 'SH', 16],
    ['Modality', 'CS', 16],
  ])('cuts nothing: %s (%s) holds %i characters', (keyword, _, limit) => {
    expect(writeDicom({ ...MINIMAL, [keyword]: 'X'.repeat(limit) }).ok).toBe(true);
    expect(failed(writeDicom({ ...MINIMAL, [keyword]: 'X'.repeat(limit + 1) }))).toEqual({
      kind: 'value-too-long',
      keyword,
      length: limit + 1,
      limit,
    });
    const nested = { ReferencedImageSequence: [{ [keyword]: 'X'.repeat(limit + 1) }] };
    expect(failed(writeDicom({ ...MINIMAL, ...nested })).keyword).toBe(keyword);
  });

  // PS3.5 6.2: a backslash parts two values in every text but LT, ST, UR and UT.
  it('writes no text that would be read as two, at any depth', () => {
    const odd = { PatientID: 'A1\\B2' };
    const refusal = { kind: 'holds-backslash', keyword: 'PatientID' };
    expect(failed(writeDicom({ ...MINIMAL, ...odd }))).toEqual(refusal);
    expect(failed(writeDicom({ ...MINIMAL, ReferencedImageSequence: [odd] }))).toEqual(refusal);
    expect(failed(writeDicom({ ...MINIMAL, ImageType: ['DERIVED', 'A\\B'] }))).toMatchObject({
      keyword: 'ImageType',
    });
  });

  itWithDicomTools('keeps a backslash where it is a sign like any other, and several values apart', () => {
    const object = asJson(
      written({ ...MINIMAL, TextValue: 'either\\or', ImageType: ['DERIVED', 'SECONDARY'] }),
    );
    expect(firstOf(object, '0040A160')).toBe('either\\or');
    expect(object['00080008']?.Value).toEqual(['DERIVED', 'SECONDARY']);
  });

  it('throws for an attribute that PS3.6 does not have', () => {
    expect(() => writeDicom({ ...MINIMAL, FavouriteColour: 'blue' })).toThrow('FavouriteColour');
  });
});

describe('decimalString', () => {
  it('holds to DS and stays as near as its 16 characters allow (PS3.5 6.2)', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        const text = decimalString(value);
        expect(text.length).toBeLessThanOrEqual(16);
        expect(text).toMatch(/^-?\d+(\.\d+)?(e[+-]\d+)?$/);
        expect(Math.abs(Number(text) - value)).toBeLessThanOrEqual(Math.abs(value) * 1e-8);
      }),
    );
    expect([decimalString(34.5), decimalString(-0), decimalString(0.1 + 0.2)]).toEqual(['34.5', '0', '0.3']);
  });

  it('throws for what is no number', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => decimalString(value)).toThrow(RangeError);
    }
  });
});

describe('writtenAt', () => {
  it('is the local date, time and offset of a moment', () => {
    const moment = new Date(2026, 2, 1, 9, 5, 7);
    const { date, time, offsetFromUtc } = writtenAt(moment);
    expect([date, time]).toEqual(['20260301', '090507']);
    // The offset is local less UTC (PS3.3 C.12.1.1.8), so that date, time and offset give the moment back.
    const iso = `2026-03-01T09:05:07${offsetFromUtc.slice(0, 3)}:${offsetFromUtc.slice(3)}`;
    expect(new Date(iso).getTime()).toBe(moment.getTime());
  });
});

describe('readSource', () => {
  it('names what a film lacks, and what is no film', () => {
    const lacking = sourceBytes('film-1', [
      { tag: '0020,000D', vr: 'UI', value: '' },
      { tag: '0008,0018', vr: 'UI', value: '' },
    ]);
    expect(failed(readSource(lacking, 0))).toEqual({
      kind: 'no-ids',
      missing: ['SOPInstanceUID', 'StudyInstanceUID'],
    });
    expect(failed(readSource(Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10), 0)).kind).toBe(
      'not-dicom',
    );
    expect(failed(readSource(sourceBytes('film-1').subarray(0, 400), 0)).kind).toBe('source-damaged');
  });

  it('counts the picture of a file of several from 1', () => {
    const many = sourceBytes('film-1', [{ tag: '0028,0008', vr: 'IS', value: '3' }]);
    expect(succeeded(readSource(many, 1)).frame).toBe(2);
    expect(sourceOf(sourceBytes('film-1')).frame).toBeNull();
  });
});

/** dcentvfy (dicom3tools) checks that files agree on the patient, the study and the series they say they are of. */
itNeeds('dcentvfy', '/usr/bin/python3')(
  'a capture and its film are of one patient and study, and of two series',
  () => {
    const picture = { columns: 2, rows: 2, samplesPerPixel: 3, bytes: new Uint8Array(12) } as const;
    const source = sourceOf(sourceBytes('film-1'));
    const capture = written(
      succeeded(secondaryCaptureDataset({ ...writingFacts(), picture, source, laterality: 'R' })),
    );
    expect(firstOf(asJson(capture), '0020000E')).not.toBe(SERIES_UID);
    inFolder((folder) => {
      const [one, other] = ['film.dcm', 'capture.dcm'].map((name) => join(folder, name));
      writeFileSync(one!, sourceBytes('film-1'));
      writeFileSync(other!, capture);
      const { out, err } = runTool('dcentvfy', [one!, other!]);
      const errors = `${out}\n${err}`.split('\n').filter((line) => /^Error/.test(line));
      expect(errors).toEqual([]);
    });
  },
);
