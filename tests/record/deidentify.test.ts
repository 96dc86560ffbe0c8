import { createHmac } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { recordId } from '../../src/case/document.ts';
import { deidentify, preview, treated } from '../../src/record/deidentify.ts';
import { ACTIONS, KEPT, STRICTER } from '../../src/record/deidentify-actions.ts';
import { type Dataset, dictionaryEntry } from '../../src/record/dicom/dicom-write.ts';
import { gspsDataset } from '../../src/record/dicom/gsps.ts';
import { secondaryCaptureDataset } from '../../src/record/dicom/sc.ts';
import { srDataset } from '../../src/record/dicom/sr.ts';
import type { KeyedHash } from '../../src/record/dicom/uids.ts';
import { failed, succeeded } from '../case/samples.ts';
import { itNeeds, outputOf } from '../outside-tools.ts';
import annexE from './annex-e.json' with { type: 'json' };
import {
  asFile,
  asJson,
  expectSoundObject,
  firstOf,
  itWithDicomTools,
  type JsonElement,
  written,
} from './dicom/checked.ts';
import { expectNoIdentity, IDENTIFYING_TEXTS } from './identities.ts';
import {
  assessed,
  IDENTITIES,
  openSample,
  reportInput,
  sampleCase,
  sourceBytes,
  sourceOf,
  writingFacts,
} from './sample.ts';

const hashWith =
  (secret: string): KeyedHash =>
  async (text) =>
    createHmac('sha256', secret).update(text).digest();
const hash = hashWith('a secret of this test');

const objects: Record<'report' | 'presentation' | 'capture', Dataset> = {
  report: {},
  presentation: {},
  capture: {},
};
beforeAll(async () => {
  const document = sampleCase();
  const shared = { document, assessment: assessed(document) };
  objects.report = succeeded(srDataset(reportInput(document)));
  const source = sourceOf(sourceBytes('film-1'));
  objects.presentation = succeeded(
    gspsDataset({
      ...writingFacts(),
      ...shared,
      filmId: recordId('film-1'),
      film: await openSample(),
      source,
      shownAs: { light: { shown: { kind: 'full-range' }, negative: false }, turnDegrees: 0, mirrored: false },
    }),
  );
  const picture = { columns: 3, rows: 3, samplesPerPixel: 3, bytes: new Uint8Array(27) } as const;
  objects.capture = succeeded(
    secondaryCaptureDataset({ ...writingFacts(), picture, source, laterality: 'R' }),
  );
});

const KINDS = ['report', 'presentation', 'capture'] as const;
const cleanedOf = async (kind: (typeof KINDS)[number], by = hash): Promise<Dataset> =>
  succeeded(await deidentify(objects[kind], { hash: by, pictureLookedAt: true }));

/** What an attribute may be given back as, by the letter of the profile (PS3.15 E.3.1, table E.1-1a). */
const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  X: ['remove'],
  Z: ['empty', 'subject-code', 'subject-name', 'shift-date', 'midnight'],
  D: ['subject-code', 'shift-date', 'midnight', 'clean-items'],
  U: ['replace-uid'],
  'U*': ['clean-items'],
};

describe('the table of actions', () => {
  it('has the actions of PS3.15 Annex E, and does one that they allow', () => {
    const rows = annexE.rows as unknown as Record<string, readonly [string, string]>;
    for (const { keyword, annexE: stated, action } of ACTIONS) {
      const { tag } = dictionaryEntry(keyword);
      expect(rows[tag]?.[1], `${keyword} ${tag}`).toBe(stated);
      expect(
        stated.split('/').flatMap((letter) => ALLOWED[letter] ?? []),
        keyword,
      ).toContain(action);
    }
  });

  it('keeps nothing that Annex E names', () => {
    const named = Object.keys(annexE.rows);
    for (const keyword of KEPT) expect(named, keyword).not.toContain(dictionaryEntry(keyword).tag);
  });

  it('knows every attribute that is written, and each once', () => {
    const known = [...ACTIONS, ...STRICTER].map(({ keyword }) => keyword).concat([...KEPT]);
    expect(new Set(known).size).toBe(known.length);
    const keywords = (dataset: Dataset): readonly string[] =>
      Object.entries(dataset).flatMap(([keyword, value]) => [
        keyword,
        ...(Array.isArray(value) ? value : []).flatMap((item) =>
          typeof item === 'object' ? keywords(item) : [],
        ),
      ]);
    for (const kind of KINDS) {
      expect(keywords(objects[kind]).filter((keyword) => !known.includes(keyword))).toEqual([]);
    }
  });
});

describe('deidentify', () => {
  it('needs somebody to have looked at a picture', async () => {
    const options = { hash, pictureLookedAt: false };
    expect(failed(await deidentify(objects.capture, options))).toEqual({ kind: 'picture-not-looked-at' });
    expect((await deidentify(objects.report, options)).ok).toBe(true);
  });

  it('is tested on a source that says whose it is: each text is found where it is kept', () => {
    const film = new TextDecoder('latin1').decode(sourceBytes('film-1'));
    const inFilm = IDENTIFYING_TEXTS.filter((text) => !film.includes(text));
    // The instance of the other film is not in this one.
    expect(inFilm).toHaveLength(1);
    const report = new TextDecoder('latin1').decode(written(objects.report));
    for (const text of ['Quillfeather', 'PID-998877', '19590817']) expect(report).toContain(text);
    expect(IDENTITIES.length).toBeGreaterThan(25);
  });

  it.each(KINDS)('leaves no identifying text in any byte of a %s', async (kind) => {
    expectNoIdentity(written(await cleanedOf(kind)));
  });

  itWithDicomTools.each(KINDS)('makes a sound object of a %s that says what was done', async (kind) => {
    const bytes = written(await cleanedOf(kind));
    expectSoundObject(bytes);
    const object = asJson(bytes);
    expect(firstOf(object, '00120062')).toBe('YES');
    expect(firstOf(object, '00280303')).toBe('MODIFIED');
    expect(firstOf(object, '00100020')).toMatch(/^SUBJECT-[0-9A-F]{8}$/);
    expect(firstOf(object, '00100010')).toMatchObject({
      Alphabetic: expect.stringMatching(/^SUBJECT\^[0-9A-F]{8}$/),
    });
    expect(firstOf(object, '00100030')).toBeNull();
    const codes = (object['00120064']!.Value as Record<string, JsonElement>[]).map((item) =>
      firstOf(item, '00080100'),
    );
    // CID 7050: Basic Profile, Modified Dates, Clean Structured Content, Clean Graphics.
    expect(codes).toEqual(
      {
        report: ['113100', '113107', '113104'],
        presentation: ['113100', '113107', '113103'],
        capture: ['113100', '113107'],
      }[kind],
    );
  });

  it('keeps all objects of a patient together, and apart from those of another secret', async () => {
    const [report, presentation, capture] = await Promise.all(KINDS.map((kind) => cleanedOf(kind)));
    const source = (capture!.SourceImageSequence as readonly Dataset[])[0]!;
    const series = (presentation!.ReferencedSeriesSequence as readonly Dataset[])[0]!;
    const [image] = series.ReferencedImageSequence as readonly Dataset[];
    expect(source.ReferencedSOPInstanceUID).toBe(image!.ReferencedSOPInstanceUID);
    expect(source.ReferencedSOPInstanceUID).toMatch(/^2\.25\.\d{1,39}$/);
    expect(source.ReferencedSOPClassUID).toBe('1.2.840.10008.5.1.4.1.1.1');
    for (const keyword of ['StudyInstanceUID', 'PatientID', 'StudyDate']) {
      expect(report![keyword]).toBe(capture![keyword]);
      expect(presentation![keyword]).toBe(capture![keyword]);
    }
    const elsewhere = await cleanedOf('capture', hashWith('another secret'));
    expect(elsewhere.StudyInstanceUID).not.toBe(capture!.StudyInstanceUID);
    expect(elsewhere.PatientID).not.toBe(capture!.PatientID);
  });

  it('moves all dates of a patient by the same number of days', async () => {
    const daysOf = (date: unknown) => {
      const [, year, month, day] = /^(\d{4})(\d{2})(\d{2})$/.exec(String(date))!;
      return Date.UTC(Number(year), Number(month) - 1, Number(day)) / 86_400_000;
    };
    const report = await cleanedOf('report');
    // 14 February and 1 March 2026 lie 15 days apart.
    expect(daysOf(report.ContentDate) - daysOf(report.StudyDate)).toBe(15);
    expect(daysOf('20260301') - daysOf(report.ContentDate)).toBeGreaterThanOrEqual(1);
    expect(daysOf('20260301') - daysOf(report.ContentDate)).toBeLessThanOrEqual(3650);
    expect(report.ContentTime).toBe('000000');
  });

  it('tells patients without a name apart by their study', async () => {
    const nameless = { ...objects.capture, PatientID: '', PatientName: '', IssuerOfPatientID: '' };
    const codeOf = async (study: string) =>
      succeeded(await deidentify({ ...nameless, StudyInstanceUID: study }, { hash, pictureLookedAt: true }))
        .PatientID;
    expect(await codeOf('2.25.1')).toBe(await codeOf('2.25.1'));
    expect(await codeOf('2.25.1')).not.toBe(await codeOf('2.25.2'));
  });

  it('drops an attribute that no list knows', async () => {
    const odd = { ...objects.capture, PatientComments: 'Lives next to the bakery' };
    const result = succeeded(await deidentify(odd, { hash, pictureLookedAt: true }));
    expect(result).not.toHaveProperty('PatientComments');
  });
});

/** Walks a file as pydicom reads it: path and tag of every attribute, of a sequence its items if it has any, in order. */
const WALK = `
import json, sys, pydicom
def walk(dataset, path):
    for element in dataset:
        here = (path + '.' if path else '') + element.keyword
        if element.VR == 'SQ' and len(element.value) > 0:
            for index, item in enumerate(element.value):
                yield from walk(item, here + '[%d]' % (index + 1))
        else:
            yield [here, '(%04X,%04X)' % (element.tag.group, element.tag.element), str(element.value) if element.VR in ('LO', 'UI', 'PN', 'SH', 'CS', 'DA', 'TM', 'UT') and element.VM < 2 else None]
print(json.dumps(list(walk(pydicom.dcmread(sys.argv[1]), ''))))
`;

describe('preview', () => {
  itNeeds('/usr/bin/python3').each(KINDS)(
    'lists exactly what an independent reader finds in a %s',
    async (kind) => {
      for (const dataset of [objects[kind], await cleanedOf(kind)]) {
        const found = asFile(written(dataset), (path) =>
          JSON.parse(outputOf('/usr/bin/python3', ['-c', WALK, path])),
        ) as [string, string, string | null][];
        const said = preview(dataset);
        expect(said.map(({ path, tag }) => [path, tag])).toEqual(found.map(([path, tag]) => [path, tag]));
        for (const [index, [path, , value]] of found.entries()) {
          if (value !== null) expect(said[index]!.value, path).toBe(value === 'None' ? '' : value);
        }
      }
    },
  );
});

describe('treated', () => {
  it('tells a sequence that was emptied from one that is new', () => {
    const item = { ReferencedSOPInstanceUID: '2.25.1' };
    const none = { SourceImageSequence: [] };
    const one = { SourceImageSequence: [item] };
    const fates = (before: object, after: object) =>
      treated(before as typeof none, after as typeof none).map(({ path, fate }) => [path, fate]);
    expect(fates(one, none)).toEqual([
      ['SourceImageSequence', 'emptied'],
      ['SourceImageSequence[1].ReferencedSOPInstanceUID', 'left out'],
    ]);
    expect(fates(none, one)).toEqual([['SourceImageSequence[1].ReferencedSOPInstanceUID', 'added']]);
    expect(fates(none, none)).toEqual([['SourceImageSequence', 'kept']]);
    expect(fates({}, none)).toEqual([['SourceImageSequence', 'added']]);
  });

  it('says of each attribute what was done to it, and repeats no value that stays behind', async () => {
    const before = {
      ...objects.capture,
      SeriesDescription: 'Series for Quillfeather',
      PatientBirthDate: '19590817',
    };
    const after = succeeded(await deidentify(before, { hash, pictureLookedAt: true }));
    const rows = treated(before, after);
    const fateOf = (wanted: string) => rows.find(({ path }) => path === wanted)?.fate;
    expect(
      [
        'SOPClassUID',
        'PatientName',
        'PatientBirthDate',
        'SeriesDescription',
        'PatientIdentityRemoved',
        'SourceImageSequence[1].ReferencedSOPInstanceUID',
      ].map(fateOf),
    ).toEqual(['kept', 'replaced', 'emptied', 'left out', 'added', 'replaced']);
    expectNoIdentity(JSON.stringify(rows));
    // All that leaves is in it, as it leaves, and all that does not.
    expect(rows.filter(({ fate }) => fate !== 'left out').map(({ path, value }) => [path, value])).toEqual(
      preview(after).map(({ path, value }) => [path, value]),
    );
    const paths = rows.map(({ path }) => path);
    for (const { path } of preview(before)) expect(paths).toContain(path);
  });
});
