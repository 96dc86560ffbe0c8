import { failure, type Result, success } from '../../geometry/result.ts';
import { assembleFilm, assembleFirst, pictureGreyScale } from '../assemble.ts';
import type { Film, FilmError, FirstPicture, GreyScale } from '../film.ts';
import type { FilmTools } from '../film-tools.ts';
import type { Sniffed } from '../sniff.ts';
import { readSpacing } from '../spacing.ts';
import { Attributes } from './attributes.ts';
import { decodeFrame } from './decode-frame.ts';
import { hasOverlay, isColour, readFacts } from './facts.ts';
import { firstSamples } from './first-samples.ts';
import { frameBytes } from './frames.ts';
import { readGreyScale } from './grey-attributes.ts';
import { palettePixels } from './palette.ts';
import { parseDicomFile } from './parse.ts';
import { type PixelDescription, readPixelDescription } from './pixel-description.ts';
import type { Samples } from './samples.ts';
import { sopClass } from './sop-class.ts';
import { spacingAttributes } from './spacing-attributes.ts';
import { colourPixels, type GreyPixels, greyPixels } from './stored-values.ts';
import { type PixelEncoding, type TransferSyntax, transferSyntax } from './transfer-syntax.ts';

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

/** One frame of a file, found and not yet decoded. */
interface Located {
  readonly attributes: Attributes;
  readonly tags: readonly string[];
  readonly syntax: TransferSyntax;
  readonly encoding: PixelEncoding;
  readonly description: PixelDescription;
  /** The bytes of the frame alone. */
  readonly coded: Uint8Array;
  readonly notes: readonly string[];
}

function locate(
  bytes: Uint8Array,
  bare: Extract<Sniffed, { kind: 'bare-dicom' }> | null,
  frame: number,
): Result<Located, FilmError> {
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
  const coded = frameBytes(dataSet, element, description, frame, endsInMarker, syntax.bigEndian);
  if (!coded.ok) return coded;
  return success({
    attributes,
    tags: Object.keys(dataSet.elements),
    syntax,
    encoding,
    description,
    coded: coded.value.bytes,
    notes: [...notes, ...coded.value.notes],
  });
}

/** What follows decoding, of the samples at any resolution. */
function developed({ attributes, tags, syntax, description, notes }: Located, samples: Samples) {
  const stored = toGrey(samples, description, attributes);
  if (!stored.ok) return stored;
  const grey = greyScaleOf(attributes, description, stored.value);
  const facts = readFacts(attributes, tags, syntax, description, [...notes, ...samples.notes, ...grey.notes]);
  return success({ pixels: stored.value.pixels, grey: grey.value, facts });
}

async function firstPicture(located: Located, tools: FilmTools): Promise<FirstPicture | null> {
  const { encoding, coded, description, tags, attributes } = located;
  const first = await firstSamples(encoding, coded, description, hasOverlay(tags), tools);
  if (first === null) return null;
  const made = developed(located, first.samples);
  if (!made.ok) return null;
  const { pixels, grey, facts } = made.value;
  const level = { columns: first.samples.columns, rows: first.samples.rows, pixels };
  const { columns, rows } = description;
  const spacing = readSpacing(spacingAttributes(attributes));
  return assembleFirst(level, first.step, { columns, rows, grey, facts, spacing });
}

/**
 * Reads one frame of a DICOM file.
 *
 * @param bytes - The whole file.
 * @param bare - What `sniff` found where there is no preamble, else null.
 * @param frame - Counted from 0.
 * @param onFirst - See `readFilm`.
 */
export async function readDicom(
  bytes: Uint8Array,
  bare: Extract<Sniffed, { kind: 'bare-dicom' }> | null,
  frame: number,
  tools: FilmTools,
  onFirst: ((picture: FirstPicture) => void) | null = null,
): Promise<Result<Film, FilmError>> {
  const found = locate(bytes, bare, frame);
  if (!found.ok) return found;
  const located = found.value;
  const { attributes, syntax, encoding, description, coded } = located;
  const first = onFirst === null ? null : await firstPicture(located, tools);
  if (first !== null) onFirst?.(first);
  const decoded = await decodeFrame(encoding, coded, description, syntax.bigEndian, tools);
  if (!decoded.ok) return decoded;
  const made = developed(located, decoded.value);
  if (!made.ok) return made;
  const { pixels, grey, facts } = made.value;
  const { columns, rows, frames } = description;
  const where = frames > 1 ? { index: frame, count: frames } : undefined;
  const spacing = readSpacing(spacingAttributes(attributes));
  return success(assembleFilm({ columns, rows, pixels }, grey, spacing, facts, where));
}
