import { type DecodedPng, decode } from 'fast-png';
import { failure, type Result, success } from '../../geometry/result.ts';
import { assembleFilm, LIMIT_PIXELS, pictureGreyScale } from '../assemble.ts';
import type { Film, FilmError } from '../film.ts';
import { GREATEST_EXPANSION, staysWithin } from '../inflate.ts';
import { SQUARE_PIXELS } from '../spacing.ts';
import { profileOfPng, toneOf } from './embedded-profile.ts';
import { type GreyPicture, greyOfColour, greyOfGrey } from './grey-picture.ts';
import { chunksOf, essential } from './png-chunks.ts';
import type { GreyOf } from './to-srgb.ts';

const damaged = (detail: string) => failure<FilmError>({ kind: 'damaged', format: 'png', detail });

/** Channels by colour type, PNG (ISO/IEC 15948) table 11.1. */
const CHANNELS: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };

/** 100 million pixels of 16-bit grey; decoding more takes many seconds. */
const LIMIT_DATA_BYTES = 200_000_000;

const header = (bytes: Uint8Array) => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const bitsPerPixel = (bytes[24] as number) * (CHANNELS[bytes[25] as number] ?? 1);
  return { columns: view.getUint32(16), rows: view.getUint32(20), bitsPerPixel };
};

/** Looks at the header alone, so that a size no file can fill is refused before anything is decoded. */
function checkSize(bytes: Uint8Array): FilmError | null {
  if (bytes.length < 33) return { kind: 'damaged', format: 'png', detail: 'its header is not all there' };
  const { columns, rows, bitsPerPixel } = header(bytes);
  if (columns === 0 || rows === 0) {
    return { kind: 'damaged', format: 'png', detail: `its size is ${columns} × ${rows}` };
  }
  const limitPixels = Math.min(LIMIT_PIXELS, Math.floor((8 * LIMIT_DATA_BYTES) / bitsPerPixel));
  if (columns * rows > limitPixels) return { kind: 'too-large', columns, rows, limitPixels };
  const expectedBytes = Math.floor((columns * rows * bitsPerPixel) / 8);
  return expectedBytes > bytes.length * GREATEST_EXPANSION
    ? { kind: 'truncated', expectedBytes, foundBytes: bytes.length }
    : null;
}

/** No less than the data of a picture of this size, with a filter byte to each row of each of seven passes. */
function greatestInflated(bytes: Uint8Array): number {
  const { columns, rows, bitsPerPixel } = header(bytes);
  return Math.ceil((bitsPerPixel * (columns + 8) * (rows + 8)) / 8) + 16 * (rows + 8);
}

/** Unpacks samples of 1, 2 or 4 bits; each row begins on a whole byte. */
function unpacked(png: DecodedPng): ArrayLike<number> {
  if (png.depth >= 8) return png.data;
  const perByte = 8 / png.depth;
  const rowBytes = Math.ceil(png.width / perByte);
  const samples = new Uint8Array(png.width * png.height);
  const mask = 2 ** png.depth - 1;
  for (let i = 0; i < samples.length; i++) {
    const column = i % png.width;
    const byte = png.data[Math.floor(i / png.width) * rowBytes + Math.floor(column / perByte)] as number;
    samples[i] = (byte >> (8 - png.depth * ((column % perByte) + 1))) & mask;
  }
  return samples;
}

/** The four samples of a pixel, whatever the colour type; `tRNS` names one transparent colour or a palette's. */
function colourReader(png: DecodedPng, samples: ArrayLike<number>, greatest: number) {
  const { channels, palette, transparency } = png;
  const sample = (i: number) => samples[i] as number;
  if (palette !== undefined) {
    return (pixel: number) => {
      const [red = 0, green = 0, blue = 0, alpha = 255] = palette[sample(pixel)] ?? [];
      return [red, green, blue, alpha] as const;
    };
  }
  return (pixel: number) => {
    const first = channels * pixel;
    const grey = channels < 3;
    const red = sample(first);
    const green = grey ? red : sample(first + 1);
    const blue = grey ? red : sample(first + 2);
    const keyed =
      transparency !== undefined &&
      transparency.length > 0 &&
      red === transparency[0] &&
      (grey || (green === transparency[1] && blue === transparency[2]));
    const alpha = channels % 2 === 0 ? sample(first + channels - 1) : keyed ? 0 : greatest;
    return [red, green, blue, alpha] as const;
  };
}

/** The greatest value of a sample once those of fewer bits are spread over 8. */
const greatestOf = (png: DecodedPng) => (png.depth === 16 ? 65_535 : 255);

function toGrey(png: DecodedPng, greyOf: GreyOf | null): GreyPicture {
  const samples = unpacked(png);
  const isPlainGrey = png.channels === 1 && png.palette === undefined && !png.transparency?.length;
  // A grey of fewer than 8 bits is spread over 8, as the format asks of a display (13.12).
  const spread = png.palette === undefined && png.depth < 8 ? 255 / (2 ** png.depth - 1) : 1;
  if (isPlainGrey) {
    const stored =
      png.depth === 16
        ? Uint16Array.from(samples)
        : spread === 1
          ? Uint8Array.from(samples)
          : Uint8Array.from(samples, (value) => value * spread);
    return greyOfGrey(stored, greyOf);
  }
  const greatest = greatestOf(png);
  if ((png.channels === 3 && !png.transparency?.length) || png.channels === 4) {
    return greyOfColour(samples, png.channels, greatest, greyOf);
  }
  const colourOf = colourReader(png, samples, greatest);
  const count = png.width * png.height;
  const rgba = greatest === 255 ? new Uint8Array(4 * count) : new Uint16Array(4 * count);
  for (let pixel = 0; pixel < count; pixel++) {
    const [red, green, blue, alpha] = colourOf(pixel);
    rgba.set([red * spread, green * spread, blue * spread, alpha], 4 * pixel);
  }
  return greyOfColour(rgba, 4, greatest, greyOf);
}

function readPixels(png: DecodedPng, greyOf: GreyOf | null): Result<GreyPicture, FilmError> {
  const samples = png.depth >= 8 ? png.width * png.channels : Math.ceil((png.width * png.depth) / 8);
  return png.data.length < samples * png.height
    ? failure({ kind: 'truncated', expectedBytes: samples * png.height, foundBytes: png.data.length })
    : success(toGrey(png, greyOf));
}

/** Reads a PNG picture of any colour type and depth; 16 bits stay 16 bits. */
export function readPng(bytes: Uint8Array): Result<Film, FilmError> {
  const refused = checkSize(bytes);
  if (refused !== null) return failure(refused);
  const chunks = chunksOf(bytes);
  const imageData = chunks.filter(({ type }) => type === 'IDAT').map(({ data }) => data);
  if (!staysWithin(imageData, greatestInflated(bytes))) return damaged('its data holds more than its size');
  let png: DecodedPng;
  try {
    png = decode(essential(chunks), { checkCrc: true });
  } catch {
    // The decoder's own words name its insides, not the file.
    return damaged('its data stops too early or does not fit its checksums');
  }
  const isGrey = png.palette === undefined && png.channels < 3;
  const tone = toneOf(profileOfPng(chunks), isGrey ? 'grey' : 'colour', greatestOf(png));
  const grey = readPixels(png, tone.greyOf);
  if (!grey.ok) return grey;
  const notes: string[] = [];
  if (png.resolution !== undefined) {
    notes.push(
      'The PNG states a density for printing; it says nothing of millimetres in the hand and is not used.',
    );
  }
  if (tone.note !== null) notes.push(tone.note);
  const { pixels, wasColour } = grey.value;
  return success(
    assembleFilm(
      { columns: png.width, rows: png.height, pixels },
      pictureGreyScale(8 * pixels.BYTES_PER_ELEMENT),
      SQUARE_PIXELS,
      {
        format: 'png',
        modality: null,
        sopClassUid: null,
        transferSyntaxUid: null,
        viewPosition: null,
        laterality: null,
        patientOrientation: null,
        lossy: null,
        burnedIn: null,
        wasColour,
        notes,
      },
    ),
  );
}
