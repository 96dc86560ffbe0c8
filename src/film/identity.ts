import { Attributes } from './dicom/attributes.ts';
import { parseDicomFile } from './dicom/parse.ts';
import { sniff } from './sniff.ts';

/**
 * Letters and digits of a person's name, without case, accents or punctuation, of its first spelling alone:
 * the same person is written in many ways (PS3.5 6.2.1: up to three spellings, parted by `=`).
 */
const plainName = (name: string | null) =>
  (name?.split('=')[0] ?? '')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toUpperCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

/**
 * What tells the patient of one film from that of another: identifier with its issuer, birth date, and name
 * without spelling differences. Two films are of the same patient only where the whole text is equal, so that
 * doubt keeps films apart.
 *
 * **Identifies a person.** For matching alone: hash it with a secret of this device at once
 * (`src/workers/decode.ts` does), and never show, keep or log it.
 *
 * @param bytes - A whole file of any kind.
 * @returns Null where the file names no patient: pictures, files without name and identifier, damaged files.
 */
export function identityOf(bytes: Uint8Array): string | null {
  const found = sniff(bytes);
  if (found.kind !== 'dicom' && found.kind !== 'bare-dicom') return null;
  const parsed = parseDicomFile(bytes, found.kind === 'bare-dicom' ? found : null, 'header');
  if (!parsed.ok) return null;
  const attributes = new Attributes(parsed.value.dataSet);
  const identifier = attributes.text('PatientID') ?? '';
  const name = plainName(attributes.text('PatientName'));
  if (identifier === '' && name === '') return null;
  const issuer = attributes.text('IssuerOfPatientID') ?? '';
  return JSON.stringify([identifier, issuer, attributes.string('PatientBirthDate') ?? '', name]);
}
