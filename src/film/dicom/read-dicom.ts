import { failure, type Result, success } from '../../geometry/result.ts';
import { assembleFilm, pictureGreyScale } from '../assemble.ts';
import type { Film, FilmError, GreyScale } from '../film.ts';
import type { FilmTools } from '../film-tools.ts';
import type { Sniffed } from '../sniff.ts';
import { readSpacing } from '../spacing.ts';
import { Attributes } from './attributes.ts';
import { decodeFrame } from './decode-frame.ts';
import { isColour, readFacts } from './facts.ts';
import { frameBytes } from './frames.ts';
import { readGreyScale } from './grey-attributes.ts';
import { palettePixels } from './palette.ts';
import { parseDicomFile } from './parse.ts';
import { type PixelDescription, readPixelDescription } from './pixel-description.ts';
import type { Samples } from './samples.ts';
import { sopClass } from './sop-class.ts';
import { spacingAttributes } from './spacing-attributes.ts';
import { colourPixels, type GreyPixels, greyPixels } from './stored-values.ts';
import { transferSyntax } from './transfer-syntax.ts';

/** Why a file is refused for what it is, before its pixels are looked at; null when it is not. */
function refusal(attributes: Attributes): FilmError | null {
  const uid = attributes.string('SOPClassUID') ?? attributes.string('MediaStorageSOPClassUID');
  const known = uid === null ? null : sopClass(uid);
  if (attributes.element('PixelData') === null) {
    return { kind: 'no-pixel-data', sopClassName: known?.name ?? null };
  }
  return known?.open === 'no' ? { kind: 'not-a-film', looksLike: `a DICOM ${known.name}` } : null;
}

function toGrey(
  samples: Samples,
  description: PixelDescription,
  attributes: Attributes,
): Result<GreyPixels, FilmError> {
  if (samples.components === 3) return success(colourPixels(samples, description));
  const stored = greyPixels(samples, description);
  return description.photometric === 'PALETTE COLOR' ? palettePixels(stored, attributes) : success(stored);
}

function greyScaleOf(
  attributes: Attributes,
  description: PixelDescription,
  grey: GreyPixels,
): { readonly value: GreyScale; readonly notes: readonly string[] } {
  return isColour(description)
    ? { value: pictureGreyScale(grey.bitsStored), notes: [] }
    : readGreyScale(attributes, description);
}

/** Why a DICOM file holds no radiograph this tool opens, judged by its header alone; null when it may. */
export function dicomRefusal(
  bytes: Uint8Array,
  bare: Extract<Sniffed, { kind: 'bare-dicom' }> | null,
): FilmError | null {
  const parsed = parseDicomFile(bytes, bare, 'header');
  return parsed.ok ? refusal(new Attributes(parsed.value.dataSet)) : parsed.error;
}

/**
 * Reads one frame of a DICOM file.
 *
 * @param bytes - The whole file.
 * @param bare - What `sniff` found where there is no preamble, else null.
 * @param frame - Counted from 0.
 */
export async function readDicom(
  bytes: Uint8Array,
  bare: Extract<Sniffed, { kind: 'bare-dicom' }> | null,
  frame: number,
  tools: FilmTools,
): Promise<Result<Film, FilmError>> {
  const parsed = parseDicomFile(bytes, bare);
  if (!parsed.ok) return parsed;
  const { dataSet, transferSyntaxUid, notes } = parsed.value;
  const attributes = new Attributes(dataSet);
  const refused = refusal(attributes);
  if (refused !== null) return failure(refused);
  const syntax = transferSyntax(transferSyntaxUid);
  if (syntax.encoding === null) {
    return failure({ kind: 'unsupported-transfer-syntax', uid: syntax.uid, name: syntax.name });
  }
  const described = readPixelDescription(attributes);
  if (!described.ok) return described;
  const description = described.value;
  if (!Number.isInteger(frame) || frame < 0 || frame >= description.frames) {
    throw new RangeError(`Frame ${frame} was asked of a file of ${description.frames}`);
  }
  const element = attributes.element('PixelData');
  if (element === null) return failure({ kind: 'no-pixel-data', sopClassName: null });
  const inPieces = element.encapsulatedPixelData === true;
  // PS3.5 A.4: only compressed pictures come in pieces. Which codec these would want, nothing in the file says.
  if (inPieces && syntax.encoding === 'native') {
    const detail =
      'its picture is in pieces, as a compressed one is, and its header says that it is not compressed';
    return failure({ kind: 'damaged', format: 'dicom', detail });
  }
  const encoding = inPieces ? syntax.encoding : 'native';
  const endsInMarker = encoding !== 'rle' && encoding !== 'deflated-frame';
  const coded = frameBytes(dataSet, element, description, frame, endsInMarker);
  if (!coded.ok) return coded;
  const decoded = await decodeFrame(
    encoding,
    coded.value.bytes,
    description,
    syntax.bigEndian,
    element.vr !== 'OB',
    tools,
  );
  if (!decoded.ok) return decoded;
  const grey = toGrey(decoded.value, description, attributes);
  if (!grey.ok) return grey;
  const greyScale = greyScaleOf(attributes, description, grey.value);
  const allNotes = [...notes, ...coded.value.notes, ...decoded.value.notes, ...greyScale.notes];
  const facts = readFacts(attributes, Object.keys(dataSet.elements), syntax, description, allNotes);
  const { columns, rows, frames } = description;
  const where = frames > 1 ? { index: frame, count: frames } : undefined;
  const full = { columns, rows, pixels: grey.value.pixels };
  return success(
    assembleFilm(full, greyScale.value, readSpacing(spacingAttributes(attributes)), facts, where),
  );
}
