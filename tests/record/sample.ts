import { assess } from '../../src/case/assess.ts';
import type { Assessment } from '../../src/case/assessment.ts';
import { type CaseDocument, type FilmRecord, type RecordId, recordId } from '../../src/case/document.ts';
import type { Film } from '../../src/film/film.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import type { WritingFacts } from '../../src/record/dicom/modules.ts';
import { readSource, type SourceFilm } from '../../src/record/dicom/source.ts';
import type { SrInput } from '../../src/record/dicom/sr.ts';
import { uidFromUuid } from '../../src/record/dicom/uids.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { caseOf, film, free, injury, mark, settings, succeeded } from '../case/samples.ts';
import { dicomFile, type Element, filmElements, SYNTAX } from '../film/dicom-file.ts';
import { openFilm } from '../film/open.ts';

/**
 * An invented case on two invented DICOM films whose headers are full of invented identities, so that a test
 * can look for each of them in everything that is written.
 */

/** Every text that identifies the invented patient, by where it stands in the film. */
export const IDENTITIES: readonly (readonly [tag: Element['tag'], vr: string, value: string])[] = [
  ['0008,0020', 'DA', '20260214'],
  ['0008,0021', 'DA', '20260215'],
  ['0008,0022', 'DA', '20260216'],
  ['0008,0023', 'DA', '20260217'],
  ['0008,0030', 'TM', '134711'],
  ['0008,0050', 'SH', 'ACC-77-1234'],
  ['0008,0080', 'LO', 'Invented Infirmary'],
  ['0008,0081', 'ST', '12 Imaginary Lane'],
  ['0008,0090', 'PN', 'Referrer^Rosa'],
  ['0008,1010', 'SH', 'STATION-Q9'],
  ['0008,1030', 'LO', 'Hand of Quillfeather'],
  ['0008,103E', 'LO', 'Series for Quillfeather'],
  ['0008,1048', 'PN', 'Recordkeeper^Ralf'],
  ['0008,1050', 'PN', 'Performer^Petra'],
  ['0008,1070', 'PN', 'Operator^Otto'],
  ['0010,0010', 'PN', 'Quillfeather^Zebulon'],
  ['0010,0020', 'LO', 'PID-998877'],
  ['0010,0021', 'LO', 'ISSUER-ZZTOP'],
  ['0010,0030', 'DA', '19590817'],
  ['0010,1000', 'LO', 'OTHERID-5151'],
  ['0010,1001', 'PN', 'Aliasname^Zeb'],
  ['0010,1010', 'AS', '066Y'],
  ['0010,1040', 'LO', '34 Nowhere Street'],
  ['0010,2154', 'SH', '555-0143-77'],
  ['0010,2160', 'SH', 'Martian'],
  ['0010,4000', 'LT', 'Lives next to the bakery'],
  ['0018,1000', 'LO', 'SERIAL-XJ-42'],
  ['0018,700A', 'SH', 'DETECTOR-PL-9'],
  ['0020,0010', 'SH', 'STUDY-4711'],
  ['0020,4000', 'LT', 'Comment about Quillfeather'],
  ['0032,1032', 'PN', 'Requester^Rita'],
  ['0040,0253', 'SH', 'PPS-ID-3131'],
];

export const STUDY_UID = '2.25.111111111111111111111111111111111111';
export const SERIES_UID = '2.25.222222222222222222222222222222222222';
export const INSTANCE_UIDS = {
  'film-1': '2.25.333333333333333333333333333333333331',
  'film-2': '2.25.333333333333333333333333333333333332',
} as const;

const COLUMNS = 400;
const ROWS = 500;

/** The bytes of one of the two films: 12 bits, a ramp, everything above in its header. */
export function sourceBytes(id: keyof typeof INSTANCE_UIDS, extra: readonly Element[] = []): Uint8Array {
  const without = extra.map(({ tag }) => tag);
  const identities = IDENTITIES.map(([tag, vr, value]): Element => ({ tag, vr, value }));
  return dicomFile(
    filmElements({
      rows: ROWS,
      columns: COLUMNS,
      samples: Array.from({ length: ROWS * COLUMNS }, (_, pixel) => (pixel * 7) % 4096),
      extra: [
        ...[
          ...identities,
          { tag: '0008,0018', vr: 'UI', value: INSTANCE_UIDS[id] } as const,
          { tag: '0008,0008', vr: 'CS', value: 'ORIGINAL\\PRIMARY' } as const,
          { tag: '0020,000D', vr: 'UI', value: STUDY_UID } as const,
          { tag: '0020,000E', vr: 'UI', value: SERIES_UID } as const,
          { tag: '0010,0040', vr: 'CS', value: 'M' } as const,
          { tag: '0018,1164', vr: 'DS', value: '0.2\\0.2' } as const,
          { tag: '0020,0060', vr: 'CS', value: 'R' } as const,
          { tag: '0028,1050', vr: 'DS', value: '2048' } as const,
          { tag: '0028,1051', vr: 'DS', value: '4096' } as const,
        ].filter(({ tag }) => !without.includes(tag)),
        ...extra,
      ],
    }),
    SYNTAX.explicit,
  );
}

const SPACING: FilmRecord['spacing'] = {
  kind: 'millimetres',
  rowSpacingMm: 0.2,
  columnSpacingMm: 0.2,
  plane: 'detector',
  origin: 'ImagerPixelSpacing',
  calibrationType: null,
  calibrationDescription: null,
  estimatedMagnification: null,
  relativeStandardUncertainty: 0,
  conflicts: [],
};

/** Film 1: the broken bone in the lateral view, by canal and head; film 2: the other hand, by free lines. */
export function sampleCase(): CaseDocument {
  const shared = { columns: COLUMNS, rows: ROWS, spacing: SPACING, invented: false } as const;
  return caseOf(
    injury({ hand: 'right', ray: 'small', region: 'neck' }),
    settings({ limitSetIds: ['common-practice-adult'] }),
    film('film-1', shared),
    mark('film-1/proximal-axis', 'film-1', 'proximal-axis', {
      construction: 'canal',
      levels: [
        { one: filmPoint(190.25, 400.5), other: filmPoint(209.75, 400.5) },
        { one: filmPoint(191.5, 330.125), other: filmPoint(208.5, 330.875) },
        { one: filmPoint(192, 260), other: filmPoint(208, 260) },
      ],
    }),
    mark('film-1/distal-axis', 'film-1', 'distal-axis', {
      construction: 'head',
      rim: [filmPoint(285, 150), filmPoint(265, 130), filmPoint(245, 150), filmPoint(265, 170)],
      brokenEnd: filmPoint(200.5, 240.5),
    }),
    mark('film-1/dorsal-side', 'film-1', 'dorsal-side', {
      construction: 'point',
      at: filmPoint(120, 250),
    }),
    mark('film-1/length', 'film-1', 'length', {
      construction: 'segment',
      from: filmPoint(200, 410),
      to: filmPoint(275, 135),
    }),
    mark('film-1/fracture-level', 'film-1', 'fracture-level', {
      construction: 'segment',
      from: filmPoint(191, 245),
      to: filmPoint(209, 247),
    }),
    film('film-2', { ...shared, hand: 'other', view: 'lateral', day: null }),
    mark('film-2/proximal-axis', 'film-2', 'proximal-axis', free([200, 420], [200, 300])),
    mark('film-2/distal-axis', 'film-2', 'distal-axis', free([200, 300], [230, 200])),
    mark('film-2/length', 'film-2', 'length', {
      construction: 'segment',
      from: filmPoint(200, 440),
      to: filmPoint(230, 140),
    }),
  );
}

const SEVERAL_SETS = [
  'common-practice-adult',
  'strict-neck',
  'textbook-chapter',
  'emergency-atlas',
  'exam-notes',
  'subtract-the-normal-first',
  'family-practice-shortening',
];

/** The same with a third film from the front and seven limit sets: as much as is put on one page of paper. */
export function largeCase(): CaseDocument {
  return caseOf(
    ...Object.values(sampleCase().records),
    settings({ limitSetIds: SEVERAL_SETS }),
    film('film-3', { columns: COLUMNS, rows: ROWS, spacing: SPACING, view: 'pa', day: 7 }),
    mark('film-3/proximal-axis', 'film-3', 'proximal-axis', free([200, 420], [200, 300])),
    mark('film-3/distal-axis', 'film-3', 'distal-axis', free([200, 300], [215, 200])),
    mark('film-3/length', 'film-3', 'length', {
      construction: 'segment',
      from: filmPoint(200, 440),
      to: filmPoint(215, 150),
    }),
  );
}

export const assessed = (document: CaseDocument): Assessment => assess(document, SHIPPED_LIMIT_SETS);

export const sourceOf = (bytes: Uint8Array): SourceFilm => succeeded(readSource(bytes, 0));

const sources: ReadonlyMap<RecordId, SourceFilm> = new Map(
  (Object.keys(INSTANCE_UIDS) as (keyof typeof INSTANCE_UIDS)[]).map((id) => [
    recordId(id),
    sourceOf(sourceBytes(id)),
  ]),
);

/** The two films as sources, by film. */
export const sampleSources = (): ReadonlyMap<RecordId, SourceFilm> => sources;

export const openSample = (id: keyof typeof INSTANCE_UIDS = 'film-1'): Promise<Film> =>
  openFilm(sourceBytes(id));

/** Counts up, so that every UID of a test is another one and the same at each run. */
function countedUids(): () => string {
  let count = 0;
  return () => {
    count += 1;
    return uidFromUuid(`00000000-0000-4000-8000-${String(count).padStart(12, '0')}`);
  };
}

export const writingFacts = (): WritingFacts => ({
  writtenAt: { date: '20260301', time: '093000', offsetFromUtc: '+0100' },
  newUid: countedUids(),
  softwareVersion: '0.1.0',
});

export const TRACKING_UIDS = {
  injured: uidFromUuid('11111111-1111-4111-8111-111111111111'),
  other: uidFromUuid('22222222-2222-4222-8222-222222222222'),
} as const;
export const DEVICE_UID = uidFromUuid('33333333-3333-4333-8333-333333333333');

/** What a report of a case on the two films is made from. */
export const reportInput = (document = sampleCase()): SrInput => ({
  ...writingFacts(),
  document,
  assessment: assessed(document),
  sources: sampleSources(),
  trackingUids: TRACKING_UIDS,
  deviceObserverUid: DEVICE_UID,
});
