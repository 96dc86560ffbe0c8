import { type Draw, oneOf } from './random.ts';

/** Numbers that lengths and sizes are replaced with: edges of signed and unsigned fields, and none at all. */
const LIES = [
  0, 1, 2, 3, 7, 0x7f, 0xff, 0x100, 0x7fff, 0xffff, 0x10000, 0x7fffffff, 0x80000000, 0xfffffffe, 0xffffffff,
];

type Mutation = (bytes: Uint8Array, draw: Draw, other: Uint8Array) => Uint8Array;

const spliced = (...parts: readonly Uint8Array[]): Uint8Array => new Uint8Array(Buffer.concat(parts));

const MUTATIONS: Readonly<Record<string, Mutation>> = {
  'a bit': (bytes, draw) => {
    bytes[draw(bytes.length)]! ^= 1 << draw(8);
    return bytes;
  },
  'a byte': (bytes, draw) => {
    bytes[draw(bytes.length)] = draw(3) === 0 ? 0xff : draw(256);
    return bytes;
  },
  'a length': (bytes, draw) => {
    const size = oneOf(draw, [2, 4]);
    if (bytes.length < size) return bytes;
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    // Lengths stand near the front of most formats.
    const at = draw(draw(2) === 0 ? Math.min(bytes.length, 512) : bytes.length);
    const within = Math.min(at, bytes.length - size);
    const little = draw(2) === 0;
    if (size === 2) view.setUint16(within, oneOf(draw, LIES) & 0xffff, little);
    else view.setUint32(within, oneOf(draw, LIES), little);
    return bytes;
  },
  'cut short': (bytes, draw) => bytes.slice(0, draw(bytes.length)),
  'a piece left out': (bytes, draw) => {
    const from = draw(bytes.length);
    return spliced(bytes.subarray(0, from), bytes.subarray(from + draw(64)));
  },
  'a piece twice': (bytes, draw) => {
    const from = draw(bytes.length);
    return spliced(bytes.subarray(0, from + draw(256)), bytes.subarray(from));
  },
  'the end of another file': (bytes, draw, other) =>
    spliced(bytes.subarray(0, draw(bytes.length)), other.subarray(draw(other.length))),
};

const NAMES = Object.keys(MUTATIONS);

/** One to six changes of a sound file; `other` lends its bytes. */
export function mutated(
  sound: Uint8Array,
  other: Uint8Array,
  draw: Draw,
): { bytes: Uint8Array; how: string } {
  let bytes = new Uint8Array(sound);
  const how: string[] = [];
  for (let left = 1 + draw(6); left > 0 && bytes.length > 0; left--) {
    const name = oneOf(draw, NAMES);
    bytes = new Uint8Array(MUTATIONS[name]!(bytes, draw, other));
    how.push(name);
  }
  return { bytes, how: how.join(', ') };
}
