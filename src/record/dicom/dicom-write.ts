import { data, log } from 'dcmjs';
import { failure, type Result, success } from '../../geometry/result.ts';

/**
 * A DICOM data set by keyword (PS3.6), before it is written. Sequences are arrays of data sets; an empty
 * string is an attribute without a value (type 2), an empty array a sequence without items.
 */
export interface Dataset {
  readonly [keyword: string]: DicomValue;
}

export type DicomValue =
  | string
  | number
  | ArrayBuffer
  | readonly string[]
  | readonly number[]
  | readonly Dataset[];

export interface ValueTooLong {
  readonly kind: 'value-too-long';
  readonly keyword: string;
  readonly length: number;
  readonly limit: number;
}

export interface HoldsBackslash {
  readonly kind: 'holds-backslash';
  readonly keyword: string;
}

/** Identifies what wrote the file; a constant of this program, made once (PS3.7 D.3.3.2, PS3.5 B.2). */
const IMPLEMENTATION_CLASS_UID = '2.25.137424992891122614833715206096185792007';
const IMPLEMENTATION_VERSION_NAME = 'RAYBEND_1';
const EXPLICIT_VR_LITTLE_ENDIAN = '1.2.840.10008.1.2.1';

/** PS3.5 table 6.2-1, in characters. PN is counted for the whole value here: its groups are no longer than this each. */
const LONGEST: Readonly<Record<string, number>> = {
  AE: 16,
  AS: 4,
  CS: 16,
  DA: 8,
  DS: 16,
  IS: 12,
  LO: 64,
  LT: 10240,
  PN: 194,
  SH: 16,
  ST: 1024,
  TM: 14,
  UI: 64,
};

/** Texts in which a backslash is a sign like any other: everywhere else it parts two values (PS3.5 6.2, 6.4). */
const ONE_VALUE_ONLY: ReadonlySet<string> = new Set(['LT', 'ST', 'UR', 'UT']);

const isBytes = (value: unknown): value is ArrayBuffer => value instanceof ArrayBuffer;

/** The items of a value that is a sequence; an array of none is one only where the dictionary says so. */
export const itemsOf = (value: DicomValue): readonly Dataset[] =>
  Array.isArray(value) ? value.filter((item): item is Dataset => typeof item === 'object') : [];

/** Throws for a keyword that PS3.6 does not have: that is a mistake of ours. */
export function dictionaryEntry(keyword: string): { readonly tag: string; readonly vr: string } {
  const entry = data.DicomMetaDictionary.nameMap[keyword];
  if (entry === undefined) throw new Error(`PS3.6 has no attribute ${keyword}`);
  return entry;
}

function tooLong(dataset: Dataset): ValueTooLong | null {
  for (const [keyword, value] of Object.entries(dataset)) {
    const limit = LONGEST[dictionaryEntry(keyword).vr];
    if (limit !== undefined) {
      const texts = (Array.isArray(value) ? value : [value]).map(String);
      const longest = texts.find((text) => Array.from(text).length > limit);
      if (longest !== undefined) {
        return { kind: 'value-too-long', keyword, length: Array.from(longest).length, limit };
      }
    }
    for (const item of itemsOf(value)) {
      const within = tooLong(item);
      if (within !== null) return within;
    }
  }
  return null;
}

function parted(dataset: Dataset): HoldsBackslash | null {
  for (const [keyword, value] of Object.entries(dataset)) {
    const texts = ONE_VALUE_ONLY.has(dictionaryEntry(keyword).vr) ? [] : [value].flat();
    if (texts.some((text) => typeof text === 'string' && text.includes('\\')))
      return { kind: 'holds-backslash', keyword };
    for (const item of itemsOf(value)) {
      const within = parted(item);
      if (within !== null) return within;
    }
  }
  return null;
}

/** The VR of the attributes for which the dictionary leaves a choice (PS3.5 A.2: explicit little endian, 8 bits or words). */
function chosenVrs(dataset: Dataset): Readonly<Record<string, string>> {
  const words = typeof dataset.BitsAllocated === 'number' && dataset.BitsAllocated > 8;
  return {
    ...(dataset.PixelData === undefined ? {} : { PixelData: words ? 'OW' : 'OB' }),
    ...(dataset.LUTData === undefined ? {} : { LUTData: 'OW' }),
    ...(dataset.LUTDescriptor === undefined ? {} : { LUTDescriptor: 'US' }),
  };
}

/** As dcmjs takes it: each attribute as an array of its values, of which a type 2 one without a value has none. */
function natural(dataset: Dataset): Record<string, unknown> {
  const entries = Object.entries(dataset).map(([keyword, value]): readonly [string, unknown] => {
    const { vr } = dictionaryEntry(keyword);
    if (vr === 'SQ') return [keyword, itemsOf(value).map(natural)];
    if (isBytes(value)) return [keyword, [value]];
    return [keyword, value === '' ? [] : Array.isArray(value) ? value : [value]];
  });
  return { ...Object.fromEntries(entries), _vrMap: chosenVrs(dataset) };
}

/**
 * The bytes of a DICOM file (PS3.10) in explicit VR little endian, with text in UTF-8.
 *
 * @param dataset - With SOPClassUID and SOPInstanceUID; SpecificCharacterSet is set here.
 *
 * Fails with `value-too-long` where a value does not fit its VR, rather than cutting it, and with `holds-backslash`
 * where one would be read as two.
 */
export function writeDicom(dataset: Dataset): Result<Uint8Array<ArrayBuffer>, ValueTooLong | HoldsBackslash> {
  log.setLevel('error');
  const whole: Dataset = { ...dataset, SpecificCharacterSet: 'ISO_IR 192' };
  const problem = tooLong(whole) ?? parted(whole);
  if (problem !== null) return failure(problem);
  const { DicomDict, DicomMetaDictionary } = data;
  const file = new DicomDict(
    DicomMetaDictionary.denaturalizeDataset(
      natural({
        FileMetaInformationVersion: new Uint8Array([0, 1]).buffer,
        MediaStorageSOPClassUID: whole.SOPClassUID ?? '',
        MediaStorageSOPInstanceUID: whole.SOPInstanceUID ?? '',
        TransferSyntaxUID: EXPLICIT_VR_LITTLE_ENDIAN,
        ImplementationClassUID: IMPLEMENTATION_CLASS_UID,
        ImplementationVersionName: IMPLEMENTATION_VERSION_NAME,
      }),
    ),
  );
  file.dict = DicomMetaDictionary.denaturalizeDataset(natural(whole));
  return success(new Uint8Array(file.write({ fragmentMultiframe: false })));
}

/**
 * A number as DS holds it: at most 16 characters (PS3.5 6.2), as exact as fits.
 *
 * Throws for a number that is not finite.
 */
export function decimalString(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`no decimal string: ${value}`);
  const plain = String(value + 0);
  if (plain.length <= 16) return plain;
  for (let digits = 16; digits > 0; digits -= 1) {
    const rounded = Number(value.toPrecision(digits));
    // The greatest numbers round up to infinity.
    if (!Number.isFinite(rounded)) continue;
    const shorter = [String(rounded), rounded.toExponential()].find((text) => text.length <= 16);
    if (shorter !== undefined) return shorter;
  }
  throw new RangeError(`no decimal string: ${value}`);
}
