import { change, emptyCase } from '../../src/case/apply.ts';
import {
  type CaseDocument,
  type CaseRecord,
  caseId,
  type FilmRecord,
  type InjuryRecord,
  type MarkRecord,
  type MarkRole,
  type MarkShape,
  type RecordId,
  recordId,
  type SettingsRecord,
  type Transaction,
} from '../../src/case/document.ts';
import type { Result } from '../../src/geometry/result.ts';
import { filmPoint } from '../../src/geometry/units.ts';

/** Invented cases for the tests of `case`; no real person or film stands behind them. */

export const AT = '2026-03-01T09:30:00.000Z';

export const succeeded = <Value>(result: Result<Value, { readonly kind: string }>): Value => {
  if (!result.ok) throw new Error(`expected a value, got ${JSON.stringify(result.error)}`);
  return result.value;
};

export const failed = <Failure extends { readonly kind: string }>(
  result: Result<unknown, Failure>,
): Failure => {
  if (result.ok) throw new Error(`expected a failure, got ${JSON.stringify(result.value)}`);
  return result.error;
};

/** A square-pixelled film of 0.1 mm, detector plane, unless told otherwise. */
export function film(id: string, overrides: Partial<FilmRecord> = {}): FilmRecord {
  return {
    kind: 'film',
    id: recordId(id),
    sha256: '0'.repeat(64),
    format: 'dicom',
    columns: 2000,
    rows: 2400,
    shows: 'bones',
    hand: 'injured',
    view: 'lateral',
    viewFrom: 'user',
    day: 0,
    moment: null,
    spacing: {
      kind: 'millimetres',
      rowSpacingMm: 0.1,
      columnSpacingMm: 0.1,
      plane: 'detector',
      origin: 'ImagerPixelSpacing',
      calibrationType: null,
      calibrationDescription: null,
      estimatedMagnification: null,
      relativeStandardUncertainty: 0,
      conflicts: [],
    },
    invented: true,
    lossy: false,
    burnedIn: false,
    stated: { viewPosition: null, laterality: null },
    mirrored: false,
    ...overrides,
  };
}

export function mark(id: string, filmId: string, role: MarkRole, shape: MarkShape): MarkRecord {
  return { kind: 'mark', id: recordId(id), filmId: recordId(filmId), role, shape, provenance: 'placed' };
}

/** The one mark of its role on a film. */
export const on = (filmId: string, role: MarkRole, shape: MarkShape): MarkRecord =>
  mark(`${filmId}/${role}`, filmId, role, shape);

type Pair = readonly [column: number, row: number];

export const line = (filmId: string, role: MarkRole, from: Pair, to: Pair): MarkRecord =>
  on(filmId, role, { construction: 'segment', from: filmPoint(...from), to: filmPoint(...to) });

export const dot = (filmId: string, role: MarkRole, at: Pair): MarkRecord =>
  on(filmId, role, { construction: 'point', at: filmPoint(...at) });

export const free = (
  [fromColumn, fromRow]: readonly [number, number],
  [toColumn, toRow]: readonly [number, number],
): MarkShape => ({
  construction: 'free',
  from: filmPoint(fromColumn, fromRow),
  to: filmPoint(toColumn, toRow),
});

export const injury = (overrides: Partial<InjuryRecord> = {}): InjuryRecord => ({
  kind: 'injury',
  id: recordId('injury'),
  label: 'Invented case',
  hand: 'right',
  ray: 'small',
  region: 'neck',
  pattern: 'transverse',
  ageGroup: 'adult',
  date: null,
  ...overrides,
});

export const settings = (overrides: Partial<SettingsRecord> = {}): SettingsRecord => ({
  kind: 'settings',
  id: recordId('settings'),
  limitSetIds: ['common-practice-adult'],
  normal: 'best',
  placingErrorMm: null,
  placingErrorDegreesOfFreedom: null,
  milestones: null,
  ...overrides,
});

/** A case that holds the records given, beside the three that every case has. */
export function caseOf(...records: readonly CaseRecord[]): CaseDocument {
  const start = emptyCase(caseId('case-1'));
  return {
    ...start,
    records: { ...start.records, ...Object.fromEntries(records.map((record) => [record.id, record])) },
  };
}

export const putting = (document: CaseDocument, ...records: readonly CaseRecord[]): Transaction =>
  change(document, 'put records', AT, ...records);

export const idsOf = (document: CaseDocument): readonly RecordId[] =>
  Object.keys(document.records) as RecordId[];
