import { Attributes } from '../../film/dicom/attributes.ts';
import { parseDicomFile } from '../../film/dicom/parse.ts';
import { identityOf } from '../../film/identity.ts';
import { sniff } from '../../film/sniff.ts';
import { failure, type Result, success } from '../../geometry/result.ts';

/**
 * What a DICOM film says of whose it is, where it belongs and how its grey is meant: read from its bytes when
 * something is written about it, and never kept.
 */
export interface SourceFilm {
  readonly sopClassUid: string;
  readonly sopInstanceUid: string;
  readonly seriesInstanceUid: string;
  readonly studyInstanceUid: string;
  /** Of a file that holds several pictures, the one that was measured, from 1; null for a single picture. */
  readonly frame: number | null;
  /** Patient and study attributes (PS3.3 C.7.1.1, C.7.2.1) as text, by keyword; '' where there is no value. */
  readonly context: PatientStudyContext;
  /** What tells one patient from another (`identityOf`); null where the film names none. */
  readonly identity: string | null;
  readonly photometric: string;
  /** (0008,0060) Modality, or ''. */
  readonly modality: string;
}

const CONTEXT = [
  'PatientName',
  'PatientID',
  'IssuerOfPatientID',
  'PatientBirthDate',
  'PatientSex',
  'StudyDate',
  'StudyTime',
  'AccessionNumber',
  'ReferringPhysicianName',
  'StudyID',
] as const;

type PatientStudyContext = Readonly<Record<(typeof CONTEXT)[number], string>>;

const IDENTIFIERS = ['SOPClassUID', 'SOPInstanceUID', 'SeriesInstanceUID', 'StudyInstanceUID'] as const;

/** Why nothing can be written that refers to a film. */
export type SourceFailure =
  | { readonly kind: 'not-dicom' }
  | { readonly kind: 'source-damaged'; readonly detail: string }
  | { readonly kind: 'no-ids'; readonly missing: readonly string[] };

/**
 * Reads the identity of a DICOM film from its bytes.
 *
 * @param frame - Which picture of the file was measured, from 0.
 *
 * Fails with `not-dicom` for a picture file, which has no identity to refer to, and with `no-ids` for a DICOM
 * file that lacks one of its four UIDs.
 */
export function readSource(bytes: Uint8Array, frame: number): Result<SourceFilm, SourceFailure> {
  const sniffed = sniff(bytes);
  if (sniffed.kind !== 'dicom' && sniffed.kind !== 'bare-dicom') return failure({ kind: 'not-dicom' });
  const parsed = parseDicomFile(bytes, sniffed.kind === 'bare-dicom' ? sniffed : null);
  if (!parsed.ok) return failure({ kind: 'source-damaged', detail: parsed.error.kind });
  const attributes = new Attributes(parsed.value.dataSet);
  const missing = IDENTIFIERS.filter((keyword) => attributes.string(keyword) === null);
  if (missing.length > 0) return failure({ kind: 'no-ids', missing });
  const uid = (keyword: (typeof IDENTIFIERS)[number]): string => attributes.string(keyword) ?? '';
  return success({
    sopClassUid: uid('SOPClassUID'),
    sopInstanceUid: uid('SOPInstanceUID'),
    seriesInstanceUid: uid('SeriesInstanceUID'),
    studyInstanceUid: uid('StudyInstanceUID'),
    frame: (attributes.number('NumberOfFrames') ?? 1) > 1 ? frame + 1 : null,
    context: Object.fromEntries(
      CONTEXT.map((keyword) => [keyword, attributes.text(keyword) ?? '']),
    ) as PatientStudyContext,
    identity: identityOf(bytes),
    photometric: attributes.string('PhotometricInterpretation') ?? '',
    modality: attributes.string('Modality') ?? '',
  });
}

/** Whether two films may show the same person: where both name one, it must be the same. */
export const samePatient = (one: SourceFilm, other: SourceFilm): boolean =>
  one.identity === null || other.identity === null || one.identity === other.identity;
