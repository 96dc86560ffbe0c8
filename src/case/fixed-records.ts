import {
  type CaseDocument,
  type CaseRecord,
  EXAMINATION_ID,
  type ExaminationRecord,
  INJURY_ID,
  type InjuryRecord,
  type RecordId,
  SETTINGS_ID,
  type SettingsRecord,
} from './document.ts';

/** The injury of the case. */
export const injuryOf = (document: CaseDocument): InjuryRecord => fixed(document, INJURY_ID, 'injury');

/** The answers of the examination. */
export const examinationOf = (document: CaseDocument): ExaminationRecord =>
  fixed(document, EXAMINATION_ID, 'examination');

/** The settings of the case. */
export const settingsOf = (document: CaseDocument): SettingsRecord =>
  fixed(document, SETTINGS_ID, 'settings');

/** Every case is made with these and cannot lose them, so their absence is a mistake of ours and throws. */
function fixed<Kind extends CaseRecord['kind']>(
  { id, records }: CaseDocument,
  at: RecordId,
  kind: Kind,
): Extract<CaseRecord, { kind: Kind }> {
  const record = records[at];
  if (record?.kind !== kind) throw new Error(`case ${id} has no ${kind} record`);
  return record as Extract<CaseRecord, { kind: Kind }>;
}
