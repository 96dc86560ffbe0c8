import { inflateZlib } from '../inflate.ts';
import { crc32 } from './crc32.ts';
import { type IccProfile, readIcc } from './icc.ts';
import { profileSegments } from './jpeg-segments.ts';
import type { PngChunk } from './png-chunks.ts';
import { type GreyOf, greyThrough, withCurve } from './to-srgb.ts';

/** What a picture file says of its colours, before that is understood. */
export type Embedded =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'damaged' }
  | { readonly kind: 'icc'; readonly bytes: Uint8Array }
  /** The light of a stored value is that value to the power of the exponent. */
  | { readonly kind: 'gamma'; readonly exponent: number };

/** How the colours of one picture become grey, and what is said of it. */
export interface PictureTone {
  /** null: as for any picture without a profile, which is taken to be sRGB. */
  readonly greyOf: GreyOf | null;
  readonly note: string | null;
}

const AS_STORED: PictureTone = { greyOf: null, note: null };
const NOTHING: Embedded = { kind: 'nothing' };
const DAMAGED: Embedded = { kind: 'damaged' };

/** The colour profile of a JPEG file, put together from its pieces whatever their order. */
export function profileOfJpeg(jpeg: Uint8Array): Embedded {
  const pieces = profileSegments(jpeg)
    .map(({ data }) => ({ number: data[12], count: data[13], part: data.subarray(14) }))
    .sort((a, b) => (a.number ?? 0) - (b.number ?? 0));
  if (pieces.length === 0) return NOTHING;
  if (!pieces.every(({ number, count }, i) => number === i + 1 && count === pieces.length)) return DAMAGED;
  const bytes = new Uint8Array(pieces.reduce((sum, { part }) => sum + part.length, 0));
  let at = 0;
  for (const { part } of pieces) {
    bytes.set(part, at);
    at += part.length;
  }
  return { kind: 'icc', bytes };
}

/** Ten times what profiles with tables have; common practice, no source. */
const MOST_PROFILE_BYTES = 16_000_000;

/** iCCP (11.3.3.3): a name of up to 79 bytes, a zero, the method 0, zlib data. */
function profileIn(data: Uint8Array): Embedded {
  const end = data.indexOf(0);
  if (end < 0 || end > 79 || data[end + 1] !== 0) return DAMAGED;
  try {
    return { kind: 'icc', bytes: inflateZlib(data.subarray(end + 2), MOST_PROFILE_BYTES) };
  } catch {
    // Too much, or no zlib data: the reasons of the library do not help anyone.
    return DAMAGED;
  }
}

/** 1 / 2.2 to five places: what stands for sRGB (11.3.3.5); 0.45 is written too. */
const SRGB_GAMMA = 45_455;
const SAME_GAMMA = 500;

/** gAMA (11.3.3.2): stored = light to the power of this, times 100,000. */
function gammaIn(data: Uint8Array): Embedded {
  const gamma = data.length === 4 ? new DataView(data.buffer, data.byteOffset, 4).getUint32(0) : 0;
  if (gamma === 0) return DAMAGED;
  return Math.abs(gamma - SRGB_GAMMA) <= SAME_GAMMA ? NOTHING : { kind: 'gamma', exponent: 100_000 / gamma };
}

/**
 * What a PNG file says of its colours (ISO/IEC 15948 11.3.3): iCCP before sRGB before gAMA, the first of each,
 * and only before the picture.
 */
export function profileOfPng(chunks: readonly PngChunk[]): Embedded {
  const before = chunks.slice(
    0,
    chunks.findIndex(({ type }) => type === 'IDAT'),
  );
  const found = ['iCCP', 'sRGB', 'gAMA']
    .map((wanted) => before.find(({ type }) => type === wanted))
    .find((chunk) => chunk !== undefined);
  if (found === undefined || found.type === 'sRGB') return NOTHING;
  const { whole, data } = found;
  const stated = new DataView(whole.buffer, whole.byteOffset + whole.length - 4, 4).getUint32(0);
  if (stated !== crc32(whole.subarray(4, -4))) return DAMAGED;
  return found.type === 'iCCP' ? profileIn(data) : gammaIn(data);
}

const notApplied = (why: string): PictureTone => ({
  greyOf: null,
  note: `The picture’s colour profile was not applied: it is ${why}. The greys are as stored, and may look lighter or darker than meant.`,
});

const applied = (greyOf: GreyOf, what: string): PictureTone => ({
  greyOf,
  note: `The greys were changed to those of sRGB, as the picture’s ${what} asks.`,
});

/**
 * How a picture becomes grey with what its file says of its colours. Nothing here stops a film: what cannot be
 * applied is said, and the picture is taken as sRGB, as one that says nothing.
 *
 * @param kind - Whether the picture is stored in grey or in colour.
 * @param greatest - The greatest stored value, 255 or 65,535.
 */
export function toneOf(embedded: Embedded, kind: IccProfile['kind'], greatest: number): PictureTone {
  switch (embedded.kind) {
    case 'nothing':
      return AS_STORED;
    case 'damaged':
      return notApplied('damaged');
    case 'gamma': {
      const greyOf = greyThrough(
        withCurve(kind, (stored) => stored ** embedded.exponent),
        greatest,
      );
      return greyOf === null ? AS_STORED : applied(greyOf, 'gamma (gAMA)');
    }
    case 'icc': {
      const profile = readIcc(embedded.bytes);
      if (!profile.ok) return notApplied(profile.error.kind === 'damaged' ? 'damaged' : profile.error.sort);
      const greyOf = greyThrough(profile.value, greatest);
      if (greyOf === null) return AS_STORED;
      if (profile.value.kind === kind) return applied(greyOf, 'colour profile');
      return notApplied(
        kind === 'grey' ? 'for colour, and the picture is grey' : 'for grey, and the picture is in colour',
      );
    }
  }
}
