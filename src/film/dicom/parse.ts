import dicomParser, { type DataSet } from 'dicom-parser';
import { failure, type Result, reasonOf, success } from '../../geometry/result.ts';
import type { FilmError } from '../film.ts';
import { inflateRaw, inflateStart } from '../inflate.ts';
import type { Sniffed } from '../sniff.ts';
import { implicitVrOf, TAGS, tagOf } from './tags.ts';

export interface ParsedDicom {
  readonly dataSet: DataSet;
  /** (0002,0010), or the syntax its bytes show where there is no meta header. */
  readonly transferSyntaxUid: string;
  readonly notes: readonly string[];
}

type BareDicom = Extract<Sniffed, { kind: 'bare-dicom' }>;

/** A deflated data set that grows beyond this is no film within the limit on pixels. */
const LIMIT_INFLATED_BYTES = 400_000_000;

/** What stands before the pixels of a film is far smaller. */
const HEADER_BYTES = 4_000_000;

/** How much of a file is parsed: all of it, or what stands before its pixel data. */
export type Extent = 'whole' | 'header';

/** dicom-parser wants the meta header and the inflated data set as one array, the header unchanged. */
const inflaters: Readonly<Record<Extent, (bytes: Uint8Array, position: number) => Uint8Array>> = {
  whole: (bytes, position) =>
    inflateRaw(bytes.subarray(position), LIMIT_INFLATED_BYTES, bytes.subarray(0, position)),
  header: (bytes, position) =>
    inflateStart(bytes.subarray(position), HEADER_BYTES, bytes.subarray(0, position)),
};

function withPreamble(bytes: Uint8Array): Uint8Array {
  const whole = new Uint8Array(bytes.length + 132);
  whole.set([0x44, 0x49, 0x43, 0x4d], 128);
  whole.set(bytes, 132);
  return whole;
}

/** dicom-parser throws strings, Errors and `{ exception, dataSet }`; the last keeps what was read. */
function readUntil(thrown: unknown): { readonly reason: string; readonly dataSet: DataSet | null } {
  if (typeof thrown === 'object' && thrown !== null && 'exception' in thrown) {
    const partial = thrown as { exception: unknown; dataSet?: DataSet };
    return { reason: readUntil(partial.exception).reason, dataSet: partial.dataSet ?? null };
  }
  const reason = reasonOf(thrown);
  return { reason: reason.replace(/^dicomParser[.:]\w+: /, ''), dataSet: null };
}

/** Whether the pixel data lies within the bytes that are there, by its own lengths. */
function pixelDataEnd(dataSet: DataSet): number | null {
  const element = dataSet.elements[TAGS.PixelData];
  if (element === undefined) return null;
  const ends = (element.fragments ?? []).map((fragment) => fragment.position + fragment.length);
  return element.encapsulatedPixelData === true
    ? Math.max(element.dataOffset, ...ends)
    : element.dataOffset + element.length;
}

function checkWhole(dataSet: DataSet, stopped: string | null): Result<readonly string[], FilmError> {
  const end = pixelDataEnd(dataSet);
  const found = dataSet.byteArray.length;
  if (end !== null && end > found) {
    const start = dataSet.elements[TAGS.PixelData]?.dataOffset ?? 0;
    return failure({ kind: 'truncated', expectedBytes: end - start, foundBytes: Math.max(0, found - start) });
  }
  if (stopped === null) return success([]);
  return end === null
    ? failure({ kind: 'damaged', format: 'dicom', detail: `it stops before its picture (${stopped})` })
    : success(['The file is damaged after its picture; the picture itself is complete.']);
}

/**
 * Parses the data elements of a DICOM file, in any of the native encodings, with or without preamble and meta
 * header. Refuses a file whose pixel data is not all there; damage after it is noted.
 *
 * @param extent - `header` looks at nothing behind the tag of the pixel data, and does not say whether that is all there.
 */
export function parseDicomFile(
  bytes: Uint8Array,
  bare: BareDicom | null,
  extent: Extent = 'whole',
): Result<ParsedDicom, FilmError> {
  const metaOnly = bare?.transferSyntaxUid === 'in-meta-header';
  const source = metaOnly ? withPreamble(bytes) : bytes;
  const notes = bare === null ? [] : ['The file has no DICOM preamble; it was read from its first element.'];
  const options = {
    inflater: inflaters[extent],
    ...(extent === 'header' ? { untilTag: TAGS.PixelData } : {}),
    vrCallback: implicitVrOf as (tag: string) => void,
    ...(bare !== null && !metaOnly ? { TransferSyntaxUID: bare.transferSyntaxUid } : {}),
  };
  let transferSyntaxUid = metaOnly || bare === null ? null : bare.transferSyntaxUid;
  try {
    if (transferSyntaxUid === null) {
      const meta = dicomParser.readPart10Header(source);
      transferSyntaxUid = meta.string(TAGS.TransferSyntaxUID) ?? null;
      if (transferSyntaxUid === null || transferSyntaxUid === '') {
        const keyword = 'TransferSyntaxUID';
        return failure({ kind: 'missing-attribute', tag: tagOf(keyword), keyword });
      }
    }
    const dataSet = dicomParser.parseDicom(source, options);
    if (extent === 'header') return success({ dataSet, transferSyntaxUid, notes });
    const whole = checkWhole(dataSet, null);
    return whole.ok ? success({ dataSet, transferSyntaxUid, notes: [...notes, ...whole.value] }) : whole;
  } catch (thrown) {
    const { reason, dataSet } = readUntil(thrown);
    if (dataSet === null || transferSyntaxUid === null) {
      return failure({ kind: 'damaged', format: 'dicom', detail: `its header cannot be read (${reason})` });
    }
    const whole = checkWhole(dataSet, reason);
    return whole.ok ? success({ dataSet, transferSyntaxUid, notes: [...notes, ...whole.value] }) : whole;
  }
}
