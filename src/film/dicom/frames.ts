import dicomParser, { type DataSet, type Element } from 'dicom-parser';
import { failure, type Result, success } from '../../geometry/result.ts';
import type { FilmError } from '../film.ts';
import { nativeFrameBytes } from './native.ts';
import type { PixelDescription } from './pixel-description.ts';

/** The bytes of one frame of the pixel data. */
export interface FrameBytes {
  readonly bytes: Uint8Array;
  readonly notes: readonly string[];
}

/**
 * The bytes of one frame of 8-bit pixels kept in big-endian words (PS3.5 6.2, VR OW): two and two they have changed
 * places. The words are those of the whole element, so that one may begin in one frame and end in the next, or in
 * the padding.
 */
function fromBigEndianWords(all: Uint8Array, element: Element, start: number, size: number): Uint8Array {
  const end = element.dataOffset + element.length;
  return Uint8Array.from({ length: size }, (_, i) => {
    const at = ((start + i - element.dataOffset) ^ 1) + element.dataOffset;
    return all[at < end ? at : start + i] as number;
  });
}

function nativeFrame(
  all: Uint8Array,
  element: Element,
  description: PixelDescription,
  frame: number,
  bigEndian: boolean,
): Result<FrameBytes, FilmError> {
  const size = nativeFrameBytes(description);
  const expectedBytes = size * description.frames;
  if (element.length < expectedBytes) {
    return failure({ kind: 'truncated', expectedBytes, foundBytes: element.length });
  }
  const start = element.dataOffset + frame * size;
  // An odd length is padded by one byte; more than that fits no statement of the header.
  const surplus = element.length - expectedBytes;
  const notes =
    surplus > 1
      ? [
          `The pixel data is ${surplus} bytes longer than its rows and columns need; check that the picture is not slanted.`,
        ]
      : [];
  const inWords = bigEndian && description.bitsAllocated === 8 && element.vr !== 'OB';
  const bytes = inWords ? fromBigEndianWords(all, element, start, size) : all.subarray(start, start + size);
  return success({ bytes, notes });
}

const damaged = (detail: string) => failure<FilmError>({ kind: 'damaged', format: 'dicom', detail });

const tooFew = (stated: number, found: number) =>
  damaged(`it says it holds ${stated} picture${stated === 1 ? '' : 's'} and ${found} are there`);

function encapsulatedFrame(
  dataSet: DataSet,
  element: Element,
  { frames }: PixelDescription,
  frame: number,
  endsInMarker: boolean,
): Result<FrameBytes, FilmError> {
  const fragments = element.fragments ?? [];
  if (fragments.length < frames) return tooFew(frames, fragments.length);
  const fromFragments = (start: number, count: number) =>
    dicomParser.readEncapsulatedPixelDataFromFragments(dataSet, element, start, count) as Uint8Array;
  if (frames === 1) return success({ bytes: fromFragments(0, fragments.length), notes: [] });
  if (fragments.length === frames) return success({ bytes: fromFragments(frame, 1), notes: [] });
  const stated = element.basicOffsetTable ?? [];
  if (stated.length === 0 && !endsInMarker) {
    return damaged('its pictures are in pieces and no table says where each begins');
  }
  const table = stated.length > 0 ? stated : dicomParser.createJPEGBasicOffsetTable(dataSet, element);
  if (stated.length === 0 && table.length < frames) return tooFew(frames, table.length);
  // Looked at here, since the parser throws where they do not fit.
  const starts = new Set(fragments.map(({ offset }) => offset));
  const fits = table.every((offset, i) => starts.has(offset) && offset > (table[i - 1] ?? -1));
  if (table.length < frames || !fits) {
    return damaged('the table of its pictures does not fit the pieces they are in');
  }
  const bytes = dicomParser.readEncapsulatedImageFrame(dataSet, element, frame, table) as Uint8Array;
  return success({ bytes, notes: [] });
}

/**
 * The bytes of one frame: native pixels of exactly the size the header asks for, or one compressed stream put
 * together from its fragments (PS3.5 A.4). Refuses pixel data too short for the header.
 *
 * @param frame - Counted from 0, below `description.frames`.
 * @param endsInMarker - The streams end with FF D9, as JPEG, JPEG-LS and JPEG 2000 do, so that frames in pieces
 *   are found even where the offset table is empty.
 */
export function frameBytes(
  dataSet: DataSet,
  element: Element,
  description: PixelDescription,
  frame: number,
  endsInMarker: boolean,
  bigEndian: boolean,
): Result<FrameBytes, FilmError> {
  return element.encapsulatedPixelData === true
    ? encapsulatedFrame(dataSet, element, description, frame, endsInMarker)
    : nativeFrame(dataSet.byteArray as Uint8Array, element, description, frame, bigEndian);
}
