import { createHmac } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CaseDocument, type CaseRecord, recordId } from '../../../src/case/document.ts';
import { filmPoint } from '../../../src/geometry/units.ts';
import { deidentify } from '../../../src/record/deidentify.ts';
import type { Dataset } from '../../../src/record/dicom/dicom-write.ts';
import { gspsDataset } from '../../../src/record/dicom/gsps.ts';
import { secondaryCaptureDataset } from '../../../src/record/dicom/sc.ts';
import { readSource, type SourceFilm } from '../../../src/record/dicom/source.ts';
import { srDataset } from '../../../src/record/dicom/sr.ts';
import { knownReadings } from '../../../src/record/readings.ts';
import { caseOf, failed, film, mark, succeeded } from '../../case/samples.ts';
import { dicomFile, type Element, filmElements, SYNTAX } from '../../film/dicom-file.ts';
import { openFilm } from '../../film/open.ts';
import { itNeeds, outputOf, runTool } from '../../outside-tools.ts';
import { expectNoIdentity } from '../identities.ts';
import {
  assessed,
  IDENTITIES,
  INSTANCE_UIDS,
  reportInput,
  SERIES_UID,
  STUDY_UID,
  sampleCase,
  sourceBytes,
  sourceOf,
  writingFacts,
} from '../sample.ts';
import { asFile, asJson, expectSoundObject, type JsonElement, written } from './checked.ts';

const itWithValidators = itNeeds('dciodvfy', 'dsrdump', 'dcmpschk', '/usr/bin/python3');

const hash = async (text: string) => createHmac('sha256', 'a secret of this test').update(text).digest();

const IDS: readonly Element[] = [
  { tag: '0008,0018', vr: 'UI', value: INSTANCE_UIDS['film-1'] },
  { tag: '0020,000D', vr: 'UI', value: STUDY_UID },
  { tag: '0020,000E', vr: 'UI', value: SERIES_UID },
];
const NAMES: readonly Element[] = IDENTITIES.map(([tag, vr, value]): Element => ({ tag, vr, value }));

/** A film of 400 × 500 pixels of 8 bits with every identity in its header. */
const eightBits = (photometric: string, extra: readonly Element[] = []): Uint8Array =>
  dicomFile(
    filmElements({
      rows: 500,
      columns: 400,
      bitsAllocated: 8,
      bitsStored: 8,
      photometric,
      samples: Array.from({ length: 200_000 }, (_, pixel) => (pixel * 7) % 256),
      extra: [...NAMES.filter(({ tag }) => !extra.some((one) => one.tag === tag)), ...IDS, ...extra],
    }),
    SYNTAX.explicit,
  );

/** The same with its pixels as JPEG, by dcmtk. */
const asJpeg = (bytes: Uint8Array): Uint8Array =>
  asFile(bytes, (path) => {
    outputOf('dcmcjpeg', ['+eb', '+un', path, `${path}.jpg.dcm`]);
    return new Uint8Array(readFileSync(`${path}.jpg.dcm`));
  });

const KINDS: Readonly<Record<string, () => Uint8Array>> = {
  '8 bits': () => eightBits('MONOCHROME2'),
  'white for the lowest value': () => eightBits('MONOCHROME1'),
  'JPEG pixels': () => asJpeg(eightBits('MONOCHROME2')),
  'a digital radiograph (DX)': () =>
    eightBits('MONOCHROME2', [{ tag: '0008,0016', vr: 'UI', value: '1.2.840.10008.5.1.4.1.1.1.1' }]),
  'a scanned film (secondary capture)': () =>
    eightBits('MONOCHROME2', [{ tag: '0008,0016', vr: 'UI', value: '1.2.840.10008.5.1.4.1.1.7' }]),
};

/** A report, a presentation state and a capture of the first film of the sample case. */
async function objectsOf(bytes: Uint8Array): Promise<Readonly<Record<string, Dataset>>> {
  const document = sampleCase();
  const source = sourceOf(bytes);
  const shared = { document, assessment: assessed(document), ...writingFacts() };
  const picture = { columns: 5, rows: 3, samplesPerPixel: 3, bytes: new Uint8Array(45) } as const;
  const light = { shown: { kind: 'full-range' }, negative: false } as const;
  return {
    report: reportOf(document, new Map([[recordId('film-1'), source]])),
    presentation: succeeded(
      gspsDataset({
        ...shared,
        filmId: recordId('film-1'),
        film: await openFilm(bytes),
        source,
        shownAs: { light, turnDegrees: 0, mirrored: false },
      }),
    ),
    capture: succeeded(secondaryCaptureDataset({ ...writingFacts(), picture, source, laterality: 'R' })),
  };
}

const reportOf = (
  document: CaseDocument,
  sources: ReadonlyMap<ReturnType<typeof recordId>, SourceFilm>,
): Dataset => succeeded(srDataset({ ...reportInput(document), sources }));

function expectSound(kind: string, bytes: Uint8Array): void {
  expectSoundObject(bytes);
  asFile(bytes, (path) => {
    if (kind === 'report') {
      const { status, err } = runTool('dsrdump', [path]);
      expect(status).toBe(0);
      expect(err.split('\n').filter((line) => /^[EW]:/.test(line) && !/VR checker/.test(line))).toEqual([]);
    }
    if (kind === 'presentation') {
      const { out, err } = runTool('dcmpschk', [path]);
      expect(`${out}${err}`).toContain('Test passed');
    }
  });
}

/** Every value of an attribute, however deep it lies. */
const valuesOf = (item: Record<string, JsonElement>, tag: string): readonly unknown[] =>
  Object.entries(item).flatMap(([key, { vr, Value = [] }]) =>
    vr === 'SQ'
      ? Value.flatMap((inner) => valuesOf(inner as Record<string, JsonElement>, tag))
      : key === tag
        ? Value
        : [],
  );

describe.each(Object.keys(KINDS))('objects about a film of %s', (kind) => {
  itWithValidators('have no error by any validator, with the patient and without', async () => {
    for (const [name, dataset] of Object.entries(await objectsOf(KINDS[kind]!()))) {
      expectSound(name, written(dataset));
      const clean = written(succeeded(await deidentify(dataset, { hash, pictureLookedAt: true })));
      expectSound(name, clean);
      expectNoIdentity(clean);
    }
  });

  itWithValidators('refer to that film and to no other', async () => {
    const bytes = KINDS[kind]!();
    const { sopClassUid } = sourceOf(bytes);
    for (const [name, dataset] of Object.entries(await objectsOf(bytes))) {
      const object = asJson(written(dataset));
      expect(new Set(valuesOf(object, '00081155')), name).toEqual(new Set([INSTANCE_UIDS['film-1']]));
      expect(new Set(valuesOf(object, '00081150')), name).toEqual(new Set([sopClassUid]));
    }
  });
});

const nail = (role: 'reference-nail' | 'finger-nail', from: readonly [number, number], to: typeof from) =>
  mark(`fist/${role}`, 'fist', role, {
    construction: 'segment',
    from: filmPoint(...from),
    to: filmPoint(...to),
  });

const FIST_MARKS: readonly CaseRecord[] = [
  film('fist', { shows: 'fist', view: null, columns: 400, rows: 500, invented: false }),
  nail('reference-nail', [100, 300], [100, 200]),
  nail('finger-nail', [200, 300], [230, 205]),
];

describe('a report of several kinds of film', () => {
  const photograph = dicomFile(
    filmElements({
      rows: 500,
      columns: 400,
      bitsAllocated: 8,
      bitsStored: 8,
      samplesPerPixel: 3,
      photometric: 'RGB',
      // VL Photographic Image Storage (PS3.4 B.5).
      sopClass: '1.2.840.10008.5.1.4.1.1.77.1.4',
      extra: [
        ...NAMES,
        { tag: '0008,0018', vr: 'UI', value: '2.25.77' },
        { tag: '0008,0060', vr: 'CS', value: 'XC' },
        { tag: '0020,000D', vr: 'UI', value: '2.25.7700' },
        { tag: '0020,000E', vr: 'UI', value: '2.25.7701' },
        { tag: '0028,0006', vr: 'US', value: [0] },
      ],
    }),
    SYNTAX.explicit,
  );

  itWithValidators(
    'is sound with a photograph of the fist from a study of its own, as evidence of it',
    () => {
      const document = caseOf(...Object.values(sampleCase().records), ...FIST_MARKS);
      const fist = knownReadings(assessed(document)).filter(({ filmId }) => filmId === 'fist');
      expect(fist.length).toBeGreaterThan(0);
      const report = written(
        reportOf(
          document,
          new Map([
            [recordId('film-1'), sourceOf(sourceBytes('film-1'))],
            [recordId('film-2'), sourceOf(sourceBytes('film-2'))],
            [recordId('fist'), sourceOf(photograph)],
          ]),
        ),
      );
      expectSound('report', report);
      const object = asJson(report);
      const evidence = (object['0040A375']?.Value ?? []) as Record<string, JsonElement>[];
      const instances = Object.fromEntries(
        evidence.map((study) => [study['0020000D']?.Value?.[0], new Set(valuesOf(study, '00081155'))]),
      );
      expect(instances).toEqual({
        [STUDY_UID]: new Set(Object.values(INSTANCE_UIDS)),
        '2.25.7700': new Set(['2.25.77']),
      });
    },
  );

  itWithValidators('is sound where one film is a picture without any UID, of which it says nothing', () => {
    const records = Object.values(sampleCase().records).map((record) =>
      record.kind === 'film' && record.id === 'film-2' ? { ...record, format: 'jpeg' as const } : record,
    );
    const report = written(
      reportOf(caseOf(...records), new Map([[recordId('film-1'), sourceOf(sourceBytes('film-1'))]])),
    );
    expectSound('report', report);
    expect(new Set(valuesOf(asJson(report), '00081155'))).toEqual(new Set([INSTANCE_UIDS['film-1']]));
  });

  it('cannot refer to a DICOM file without UIDs, and names those it lacks', () => {
    const bare = dicomFile(filmElements({ without: ['0008,0018'] }), SYNTAX.explicit);
    expect(failed(readSource(bare, 0))).toEqual({
      kind: 'no-ids',
      missing: ['SOPInstanceUID', 'SeriesInstanceUID', 'StudyInstanceUID'],
    });
  });
});

it('the search for identities finds each of them when one is left in', async () => {
  const { report } = await objectsOf(eightBits('MONOCHROME2'));
  const clean = succeeded(await deidentify(report!, { hash, pictureLookedAt: true }));
  expectNoIdentity(written(clean));
  for (const [keyword, value] of [
    ['PatientID', 'PID-998877'],
    ['AccessionNumber', 'ACC-77-1234'],
    ['StudyInstanceUID', STUDY_UID],
  ] as const) {
    expect(() => expectNoIdentity(written({ ...clean, [keyword]: value })), keyword).toThrow();
  }
});
