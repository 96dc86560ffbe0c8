import { failure, type Result, success } from '../../geometry/result.ts';

/** The share of light, 0 to 1, that a stored value, 0 to 1, stands for. */
export type ToneCurve = (stored: number) => number;

type Three<Value> = readonly [Value, Value, Value];

/** What an ICC profile says of a picture, as far as it is applied: light relative to white under D50. */
export type IccProfile =
  | { readonly kind: 'grey'; readonly curve: ToneCurve }
  | {
      readonly kind: 'colour';
      /** Of red, green and blue. */
      readonly curves: Three<ToneCurve>;
      /** X, Y and Z of full red, of full green and of full blue. */
      readonly colorants: Three<Three<number>>;
    };

/** Why a profile is not applied. */
export type IccRefusal =
  | { readonly kind: 'damaged' }
  /** Sound as far as was looked, and of a sort that is not read here. */
  | { readonly kind: 'not-read'; readonly sort: string };

/** Header and tag count, ICC.1:2022 table 17 and 7.3. */
const LEAST_BYTES = 132;
/** The D50 white of the connection space, ICC.1:2022 7.2.16; the colorants add up to it. */
const WHITE: Three<number> = [0.9642, 1, 0.8249];
/** What older profiles are off by at most, as far as they can be used at all; common practice, no source. */
const WHITE_TOLERANCE = 0.05;
/** A curve of more entries than a 16-bit value has steps is not one. */
const MOST_ENTRIES = 65_536;

/** Inside this file only: the profile contradicts its own layout. */
class Damage extends Error {}

const signature = (view: DataView, at: number) =>
  String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));

/** s15Fixed16Number, ICC.1:2022 4.6. */
const fixed = (view: DataView, at: number) => view.getInt32(at) / 65_536;

/** Tags by their signature (7.3). */
function tagsOf(view: DataView): ReadonlyMap<string, DataView> {
  const tags = new Map<string, DataView>();
  const count = view.getUint32(128);
  for (let i = 0; i < count; i++) {
    const entry = LEAST_BYTES + 12 * i;
    const offset = view.getUint32(entry + 4);
    const size = view.getUint32(entry + 8);
    if (offset + size > view.byteLength) throw new Damage();
    tags.set(signature(view, entry), new DataView(view.buffer, view.byteOffset + offset, size));
  }
  return tags;
}

/** The table read between its entries, which are evenly spread from 0 to 1. */
export function interpolated(table: ArrayLike<number>): ToneCurve {
  const last = table.length - 1;
  return (stored) => {
    const place = Math.min(Math.max(stored, 0), 1) * last;
    const below = Math.min(Math.floor(place), last - 1);
    const from = table[below] as number;
    return from + (place - below) * ((table[below + 1] as number) - from);
  };
}

/** curveType, ICC.1:2022 10.6: no entry is the identity, one is an exponent, more are a table. */
function sampledCurve(tag: DataView): ToneCurve {
  const count = tag.getUint32(8);
  if (count === 0) return (stored) => stored;
  if (count === 1) {
    const exponent = tag.getUint16(12) / 256;
    return (stored) => stored ** exponent;
  }
  if (count > MOST_ENTRIES) throw new Damage();
  return interpolated(Float64Array.from({ length: count }, (_, i) => tag.getUint16(12 + 2 * i) / 65_535));
}

/** parametricCurveType, ICC.1:2022 10.18 and its table of functions 0 to 4. */
function parametricCurve(tag: DataView): ToneCurve {
  const parameters = [1, 3, 4, 5, 7][tag.getUint16(8)];
  if (parameters === undefined) throw new Damage();
  const [g = 1, a = 1, b = 0, c = 0, d, e = 0, f = 0] = Array.from({ length: parameters }, (_, i) =>
    fixed(tag, 12 + 4 * i),
  );
  switch (parameters) {
    case 1:
      return (x) => x ** g;
    case 3:
    case 4:
      return (x) => (x >= -b / a ? (a * x + b) ** g : 0) + c;
    default:
      return (x) => (x >= (d ?? 0) ? (a * x + b) ** g + e : c * x + f);
  }
}

/** A curve that can be a picture's: it never falls, and light is lighter than dark. */
function curveOf(tag: DataView | undefined): ToneCurve {
  if (tag === undefined) throw new Damage();
  const type = signature(tag, 0);
  if (type !== 'curv' && type !== 'para') throw new Damage();
  const curve = type === 'curv' ? sampledCurve(tag) : parametricCurve(tag);
  const clipped: ToneCurve = (stored) => Math.min(Math.max(curve(stored), 0), 1);
  const seen = Array.from({ length: 256 }, (_, i) => clipped(i / 255));
  const rises = seen.every((light, i) => light >= (seen[i - 1] ?? 0));
  if (!rises || (seen[255] as number) <= (seen[0] as number)) throw new Damage();
  return clipped;
}

/** XYZType, ICC.1:2022 10.31. */
function xyzOf(tag: DataView | undefined): Three<number> {
  if (tag === undefined || signature(tag, 0) !== 'XYZ ') throw new Damage();
  return [fixed(tag, 8), fixed(tag, 12), fixed(tag, 16)];
}

function read(bytes: Uint8Array): Result<IccProfile, IccRefusal> {
  const whole = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const size = whole.getUint32(0);
  if (signature(whole, 36) !== 'acsp' || size < LEAST_BYTES || size > bytes.length) throw new Damage();
  const view = new DataView(bytes.buffer, bytes.byteOffset, size);
  const notRead = (sort: string) => failure<IccRefusal>({ kind: 'not-read', sort });
  // Table 18: the classes that say what the values of a picture mean.
  if (!['scnr', 'mntr', 'prtr', 'spac'].includes(signature(view, 12))) return notRead('no picture’s own');
  const space = signature(view, 16);
  if (space === 'CMYK') return notRead('for printing inks (CMYK)');
  if (space !== 'GRAY' && space !== 'RGB ') return notRead('neither for grey nor for red, green and blue');
  const tags = tagsOf(view);
  // Where a table is there, it and not the curves is what the profile means (8.3 and 9.1.1).
  if (tags.has('A2B0')) return notRead('made of a table of colours (A2B0)');
  if (signature(view, 20) !== 'XYZ ') return notRead('of lightness and not of light (Lab)');
  if (space === 'GRAY') return success({ kind: 'grey', curve: curveOf(tags.get('kTRC')) });
  const colorants = [xyzOf(tags.get('rXYZ')), xyzOf(tags.get('gXYZ')), xyzOf(tags.get('bXYZ'))] as const;
  const [red, green, blue] = colorants;
  const isWhite = WHITE.every(
    (value, i) =>
      Math.abs((red[i] as number) + (green[i] as number) + (blue[i] as number) - value) <= WHITE_TOLERANCE,
  );
  if (!isWhite) throw new Damage();
  return success({
    kind: 'colour',
    curves: [curveOf(tags.get('rTRC')), curveOf(tags.get('gTRC')), curveOf(tags.get('bTRC'))],
    colorants,
  });
}

/**
 * Reads an ICC profile (ICC.1:2022, which is ISO 15076-1; versions 2 and 4 have the same layout): grey with one
 * curve, or red, green and blue with a curve each and a matrix.
 */
export function readIcc(bytes: Uint8Array): Result<IccProfile, IccRefusal> {
  try {
    return read(bytes);
  } catch (thrown) {
    // What lies outside the profile is a RangeError of the view.
    if (thrown instanceof Damage || thrown instanceof RangeError) return failure({ kind: 'damaged' });
    throw thrown;
  }
}
