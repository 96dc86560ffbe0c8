import { gunzipSync, inflateRawSync, inflateSync } from 'node:zlib';
import { unzipSync } from 'fflate';
import { expect } from 'vitest';
import { IDENTIFYING_TEXTS, textsIn } from './identities.ts';

/** A part of a file, by where it was found: "case.zip > films/1.dcm > deflated". */
export interface Part {
  readonly path: string;
  readonly bytes: Uint8Array;
  /** Not text: what is compressed or in base 64, and pixels and fonts, hold any few letters by chance. */
  readonly byChance: boolean;
}

type Inner = readonly (readonly [name: string, bytes: Uint8Array])[];

/** A file and everything that is packed in it, however deep. */
export function partsOf(path: string, bytes: Uint8Array): readonly Part[] {
  const inner = innerOf(bytes);
  return [
    { path, bytes, byChance: inner.length > 0 || /> (pixels|stream \d+)$/.test(path) },
    ...inner.flatMap(([name, content]) => partsOf(`${path} > ${name}`, content)),
  ];
}

/**
 * Looks for every identifying text in a file and in everything packed in it: ZIP entries and their names, gzip, the
 * text, profile and pixels of a PNG, streams of a PDF, the deflated transfer syntax of DICOM, base 64 in text.
 */
export function expectNoIdentityInside(path: string, bytes: Uint8Array): void {
  expect(identitiesInside(path, bytes)).toEqual([]);
}

/** Each identifying text that was found, with where: "case.zip > films/1.dcm: Quillfeather". */
export const identitiesInside = (path: string, bytes: Uint8Array): readonly string[] =>
  partsOf(path, bytes).flatMap((part) =>
    textsIn(part.bytes, part.byChance ? LONG_TEXTS : IDENTIFYING_TEXTS).map(
      (text) => `${part.path}: ${text}`,
    ),
  );

const LONG_TEXTS = IDENTIFYING_TEXTS.filter(({ length }) => length > 6);

function innerOf(bytes: Uint8Array): Inner {
  const begins = (...start: readonly number[]) => start.every((byte, index) => bytes[index] === byte);
  if (begins(0x50, 0x4b)) return zipEntries(bytes);
  if (begins(0x1f, 0x8b)) return [['gzip', gunzipSync(bytes)]];
  if (begins(0x89, 0x50, 0x4e, 0x47)) return pngChunks(bytes);
  if (begins(0x25, 0x50, 0x44, 0x46)) return pdfStreams(bytes);
  if (latin(bytes.subarray(128, 132)) === 'DICM') return deflatedDataset(bytes);
  return base64In(latin(bytes));
}

const latin = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');

const zipEntries = (bytes: Uint8Array): Inner => [
  ...Object.entries(unzipSync(bytes)),
  ['names of entries', Buffer.from(Object.keys(unzipSync(bytes)).join('\n'))],
];

/** PNG (third edition) 5.3; 11.3.3.2 iCCP, 11.3.4.3 tEXt, zTXt, iTXt. */
function pngChunks(bytes: Uint8Array): Inner {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const inner: [string, Uint8Array][] = [];
  const pixels: Uint8Array[] = [];
  for (let at = 8; at + 12 <= bytes.length; at += 12 + view.getUint32(at)) {
    const name = latin(bytes.subarray(at + 4, at + 8));
    const data = bytes.subarray(at + 8, at + 8 + view.getUint32(at));
    if (name === 'IDAT') pixels.push(data);
    else inner.push([name, data]);
    const keyword = data.indexOf(0);
    // A keyword, a zero, and one byte for the method; iTXt has a flag, the method and two more texts.
    if (name === 'zTXt' || name === 'iCCP')
      inner.push([`${name} unpacked`, inflateSync(data.subarray(keyword + 2))]);
    if (name === 'iTXt' && data[keyword + 1] === 1) {
      const language = data.indexOf(0, keyword + 3);
      inner.push(['iTXt unpacked', inflateSync(data.subarray(data.indexOf(0, language + 1) + 1))]);
    }
  }
  if (pixels.length > 0) inner.push(['pixels', inflateSync(Buffer.concat(pixels))]);
  return inner;
}

/** ISO 32000-1, 7.3.8 and 7.4.4: what of a stream inflates is one of FlateDecode. */
function pdfStreams(bytes: Uint8Array): Inner {
  const text = latin(bytes);
  return [...text.matchAll(/stream\r?\n/g)].flatMap((match, index): Inner => {
    const from = match.index + match[0].length;
    const until = text.indexOf('endstream', from);
    if (until === -1 || text.slice(match.index - 3, match.index) === 'end') return [];
    try {
      return [[`stream ${index}`, inflateSync(bytes.subarray(from, until))]];
    } catch {
      return [];
    }
  });
}

/** PS3.5 A.5: what follows the group 0002 is a raw deflate stream. */
function deflatedDataset(bytes: Uint8Array): Inner {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const meta = 132 + 12 + view.getUint32(140, true);
  return latin(bytes.subarray(132, meta)).includes('1.2.840.10008.1.2.1.99')
    ? [['deflated', inflateRawSync(bytes.subarray(meta))]]
    : [];
}

/** RFC 4648: runs long enough to be a file. */
const base64In = (text: string): Inner =>
  [...text.matchAll(/[A-Za-z0-9+/]{100,}={0,2}/g)].map(([run], index) => [
    `base 64 ${index}`,
    Buffer.from(run, 'base64'),
  ]);
