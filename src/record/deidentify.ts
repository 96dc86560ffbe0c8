import { hexadecimal } from '../geometry/hexadecimal.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import { ACTIONS, type Action, KEPT, STRICTER } from './deidentify-actions.ts';
import { CODES, codeItem } from './dicom/codes.ts';
import { type Dataset, type DicomValue, dictionaryEntry, itemsOf } from './dicom/dicom-write.ts';
import { type KeyedHash, uidOf } from './dicom/uids.ts';

/** A picture may show a name that no attribute holds. */
export interface PictureNotLookedAt {
  readonly kind: 'picture-not-looked-at';
}

export interface DeidentifyOptions {
  /** HMAC with a secret of this computer; deleting the secret cuts the link to the originals. */
  readonly hash: KeyedHash;
  /** Somebody saw the picture at full size and found nobody named in it. Asked only of objects with pixels. */
  readonly pictureLookedAt: boolean;
}

/**
 * The object without its patient, by the Basic Application Level Confidentiality Profile of PS3.15 Annex E with
 * the options Retain Longitudinal Temporal Information with Modified Dates and, where there is such content,
 * Clean Structured Content and Clean Graphics.
 *
 * UIDs of instances are replaced by keyed hashes of them, so that all objects written from here still point to
 * one another, and nobody without the secret can find the original. Classes, transfer syntaxes and coding schemes
 * keep theirs. Every attribute that is in no list is left out.
 */
export async function deidentify(
  dataset: Dataset,
  { hash, pictureLookedAt }: DeidentifyOptions,
): Promise<Result<Dataset, PictureNotLookedAt>> {
  if (dataset.PixelData !== undefined && !pictureLookedAt) return failure({ kind: 'picture-not-looked-at' });
  const subject = await subjectOf(dataset, hash);
  return success({
    ...(await cleaned(dataset, subject, hash)),
    PatientIdentityRemoved: 'YES',
    DeidentificationMethod: 'Raybend: PS3.15 Annex E Basic Profile, dates moved together',
    DeidentificationMethodCodeSequence: [
      CODES.basicProfile,
      CODES.modifiedDates,
      ...(dataset.ContentSequence === undefined ? [] : [CODES.cleanStructuredContent]),
      ...(dataset.GraphicAnnotationSequence === undefined ? [] : [CODES.cleanGraphics]),
    ].map(codeItem),
    LongitudinalTemporalInformationModified: 'MODIFIED',
  });
}

interface Subject {
  readonly code: string;
  readonly daysBack: number;
}

/** Ten years: longer than an injury is followed. */
const MOST_DAYS_BACK = 3650;

/** The same code and the same number of days for every object of one patient; by study where none is named. */
async function subjectOf(dataset: Dataset, hash: KeyedHash): Promise<Subject> {
  const { PatientID = '', IssuerOfPatientID = '', PatientName = '', StudyInstanceUID = '' } = dataset;
  const named = PatientID !== '' || PatientName !== '';
  const identity = named ? [PatientID, IssuerOfPatientID, PatientName] : [StudyInstanceUID];
  const bytes = await hash(`subject ${JSON.stringify(identity)}`);
  const [high = 0, low = 0] = bytes.subarray(4, 6);
  return {
    code: hexadecimal(bytes.subarray(0, 4)).toUpperCase(),
    daysBack: 1 + ((high * 256 + low) % MOST_DAYS_BACK),
  };
}

const ACTION_OF: ReadonlyMap<string, Action> = new Map(
  [...ACTIONS, ...STRICTER].map(({ keyword, action }) => [keyword, action]),
);

async function cleaned(dataset: Dataset, subject: Subject, hash: KeyedHash): Promise<Dataset> {
  const entries: [string, DicomValue][] = [];
  for (const [keyword, value] of Object.entries(dataset)) {
    const kept = await cleanedValue(keyword, value, subject, hash);
    if (kept !== null) entries.push([keyword, kept]);
  }
  return Object.fromEntries(entries);
}

/** What leaves of one attribute; null: nothing. */
async function cleanedValue(
  keyword: string,
  value: DicomValue,
  subject: Subject,
  hash: KeyedHash,
): Promise<DicomValue | null> {
  const isSequence = dictionaryEntry(keyword).vr === 'SQ';
  const action =
    ACTION_OF.get(keyword) ?? (KEPT.has(keyword) ? (isSequence ? 'clean-items' : null) : 'remove');
  switch (action) {
    case null:
      return value;
    case 'remove':
      return null;
    case 'empty':
      return isSequence ? [] : '';
    case 'subject-code':
      return `SUBJECT-${subject.code}`;
    case 'subject-name':
      return `SUBJECT^${subject.code}`;
    case 'replace-uid':
      return typeof value === 'string' && value !== '' ? uidOf(hash, value) : value;
    case 'shift-date':
      return typeof value === 'string' ? movedBack(value, subject.daysBack) : '';
    case 'midnight':
      return '000000';
    case 'clean-items':
      return Promise.all(itemsOf(value).map((item) => cleaned(item, subject, hash)));
  }
}

/** A date (DA) so many days earlier; one that is not a date has nothing to keep. */
function movedBack(date: string, days: number): string {
  const [, year, month, day] = /^(\d{4})(\d{2})(\d{2})$/.exec(date) ?? [];
  if (year === undefined || month === undefined || day === undefined) return '';
  const moved = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day) - days));
  return moved.toISOString().slice(0, 10).replaceAll('-', '');
}

/** One attribute of an object that is about to leave. */
export interface LeavingAttribute {
  /** Keywords from the outside in, items counted from 1: `ContentSequence[2].TextValue`. */
  readonly path: string;
  /** As the standard writes it: `(0040,A160)`. */
  readonly tag: string;
  /** Several values are parted by a backslash, as in the file; bytes are counted. */
  readonly value: string;
}

/** Every attribute of an object with its value, in the order of the file: exactly what leaves when it is written. */
export function preview(dataset: Dataset): readonly LeavingAttribute[] {
  return leaving(dataset, '');
}

function leaving(dataset: Dataset, path: string): readonly LeavingAttribute[] {
  return Object.entries(dataset)
    .map(([keyword, value]) => ({ keyword, value, entry: dictionaryEntry(keyword) }))
    .toSorted((one, other) => (one.entry.tag < other.entry.tag ? -1 : 1))
    .flatMap(({ keyword, value, entry: { tag, vr } }) => {
      const here = path === '' ? keyword : `${path}.${keyword}`;
      if (vr !== 'SQ') return [{ path: here, tag, value: shown(value) }];
      const items = itemsOf(value);
      if (items.length === 0) return [{ path: here, tag, value: '' }];
      return items.flatMap((item, index) => leaving(item, `${here}[${index + 1}]`));
    });
}

const shown = (value: DicomValue): string =>
  value instanceof ArrayBuffer ? `${value.byteLength} bytes` : [value].flat().map(String).join('\\');

/** An attribute on its way out: what leaves of it, and what was done to it. */
export interface TreatedAttribute extends LeavingAttribute {
  readonly fate: 'kept' | 'replaced' | 'emptied' | 'left out' | 'added';
}

/**
 * Every attribute of an object as it leaves beside the object it was made from, in the order of the file. What is
 * left out has no value; the values that it had are not repeated.
 */
export function treated(before: Dataset, after: Dataset): readonly TreatedAttribute[] {
  const had = new Map(preview(before).map((attribute) => [attribute.path, attribute]));
  const leaves = new Map(preview(after).map((attribute) => [attribute.path, attribute]));
  const fateOf = (path: string, value: string): TreatedAttribute['fate'] => {
    const old = had.get(path);
    if (old === undefined) return value === '' && hasItems(had, path) ? 'emptied' : 'added';
    if (old.value === value) return 'kept';
    return value === '' ? 'emptied' : 'replaced';
  };
  const gone = [...had.values()]
    .filter(({ path }) => !leaves.has(path) && !hasItems(leaves, path))
    .map(({ path, tag }): TreatedAttribute => ({ path, tag, value: '', fate: 'left out' }));
  const staying = [...leaves.values()].map(
    (attribute): TreatedAttribute => ({ ...attribute, fate: fateOf(attribute.path, attribute.value) }),
  );
  return [...staying, ...gone].toSorted((one, other) =>
    rootTag(one.path).localeCompare(rootTag(other.path), 'en'),
  );
}

/** Whether a sequence has items, whose attributes then stand in its place. */
const hasItems = (attributes: ReadonlyMap<string, LeavingAttribute>, path: string): boolean =>
  [...attributes.keys()].some((other) => other.startsWith(`${path}[`));

/** Tag of the outermost attribute of a path, by which a file is ordered. */
const rootTag = (path: string): string => dictionaryEntry(path.split(/[.[]/)[0] ?? path).tag;
