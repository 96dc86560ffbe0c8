import { deflateSync } from 'fflate';

/**
 * Writes small DICOM files for tests, malformed ones too: elements in the order given, values as given. The
 * encoding is PS3.5 chapter 7 (data elements) and PS3.10 chapter 7 (preamble and meta header).
 */
export interface Element {
  readonly tag: `${string},${string}`;
  readonly vr: string;
  /** Text, 16-bit numbers, bytes, items of a sequence, or the fragments of encapsulated pixel data. */
  readonly value:
    | string
    | readonly number[]
    | Uint8Array
    | { readonly items: readonly (readonly Element[])[] }
    | { readonly fragments: readonly Uint8Array[]; readonly offsets?: readonly number[] };
}

export const SYNTAX = {
  implicit: '1.2.840.10008.1.2',
  explicit: '1.2.840.10008.1.2.1',
  deflated: '1.2.840.10008.1.2.1.99',
  bigEndian: '1.2.840.10008.1.2.2',
  rle: '1.2.840.10008.1.2.5',
  jpegLossless: '1.2.840.10008.1.2.4.70',
  jpegBaseline: '1.2.840.10008.1.2.4.50',
  htj2k: '1.2.840.10008.1.2.4.201',
} as const;

const LONG_VRS = new Set(['OB', 'OW', 'SQ', 'UN', 'UT']);

class Writer {
  readonly bytes: number[] = [];
  constructor(
    readonly bigEndian: boolean,
    readonly explicit: boolean,
  ) {}

  short(value: number): void {
    const low = value & 255;
    const high = (value >> 8) & 255;
    this.bytes.push(...(this.bigEndian ? [high, low] : [low, high]));
  }

  long(value: number): void {
    const halves = [value & 0xffff, value >>> 16];
    for (const half of this.bigEndian ? halves.reverse() : halves) this.short(half);
  }

  tag(tag: string): void {
    for (const half of tag.split(',')) this.short(Number.parseInt(half, 16));
  }

  header(tag: string, vr: string, length: number): void {
    this.tag(tag);
    if (!this.explicit) {
      this.long(length);
      return;
    }
    this.bytes.push(vr.charCodeAt(0), vr.charCodeAt(1));
    if (LONG_VRS.has(vr)) {
      this.short(0);
      this.long(length);
    } else {
      this.short(length);
    }
  }

  append(bytes: ArrayLike<number>): void {
    for (let i = 0; i < bytes.length; i++) this.bytes.push(bytes[i]!);
  }

  item(content: ArrayLike<number>): void {
    this.tag('fffe,e000');
    this.long(content.length);
    this.append(content);
  }
}

/** Text as bytes; characters above 255 are not for this writer. */
const latin = (text: string) => Array.from(text, (character) => character.charCodeAt(0));

function contentOf(element: Element, writer: Writer): number[] {
  const { value, vr } = element;
  if (typeof value === 'string') {
    const bytes = latin(value);
    if (bytes.length % 2 === 1) bytes.push(vr === 'UI' ? 0 : 32);
    return bytes;
  }
  if (value instanceof Uint8Array) return Array.from(value.length % 2 === 1 ? [...value, 0] : value);
  const inner = new Writer(writer.bigEndian, writer.explicit);
  if ('items' in value) {
    for (const item of value.items) inner.item(dataSet(item, writer.bigEndian, writer.explicit));
  } else if (!('fragments' in value)) {
    for (const number of value) inner.short(number & 0xffff);
  }
  return inner.bytes;
}

function encapsulated(writer: Writer, fragments: readonly Uint8Array[], offsets: readonly number[]): void {
  writer.header('7fe0,0010', 'OB', 0xffffffff);
  const table = new Writer(false, true);
  for (const offset of offsets) table.long(offset);
  writer.item(table.bytes);
  for (const fragment of fragments) {
    writer.item(fragment.length % 2 === 1 ? [...fragment, 0] : fragment);
  }
  writer.tag('fffe,e0dd');
  writer.long(0);
}

/** Data elements without preamble or meta header. */
export function dataSet(elements: readonly Element[], bigEndian = false, explicit = true): Uint8Array {
  const writer = new Writer(bigEndian, explicit);
  for (const element of elements) {
    const { value } = element;
    if (typeof value === 'object' && 'fragments' in value) {
      encapsulated(writer, value.fragments, value.offsets ?? []);
      continue;
    }
    const content = contentOf(element, writer);
    writer.header(element.tag, element.vr, content.length);
    writer.append(content);
  }
  return Uint8Array.from(writer.bytes);
}

/** A whole file: preamble, meta header with group length, and the data set in the transfer syntax. */
export function dicomFile(
  elements: readonly Element[],
  transferSyntax: string = SYNTAX.explicit,
): Uint8Array {
  const meta = dataSet([
    { tag: '0002,0001', vr: 'OB', value: Uint8Array.of(0, 1) },
    { tag: '0002,0002', vr: 'UI', value: textOf(elements, '0008,0016') },
    { tag: '0002,0003', vr: 'UI', value: textOf(elements, '0008,0018') },
    { tag: '0002,0010', vr: 'UI', value: transferSyntax },
    { tag: '0002,0012', vr: 'UI', value: '2.25.12' },
  ]);
  const groupLength = new Writer(false, true);
  groupLength.header('0002,0000', 'UL', 4);
  groupLength.long(meta.length);
  const body = dataSet(elements, transferSyntax === SYNTAX.bigEndian, transferSyntax !== SYNTAX.implicit);
  const preamble = new Uint8Array(132);
  preamble.set(latin('DICM'), 128);
  return Uint8Array.from([
    ...preamble,
    ...groupLength.bytes,
    ...meta,
    ...(transferSyntax === SYNTAX.deflated ? deflateSync(body) : body),
  ]);
}

const textOf = (elements: readonly Element[], tag: string) => {
  const value = elements.find((element) => element.tag === tag)?.value;
  return typeof value === 'string' ? value : '2.25.1';
};

/** What a test may change of the film that `filmElements` makes; everything else is a plain radiograph. */
/** A VOI LUT Sequence (PS3.3 C.11.2) of one table: entries, first value mapped, bits per entry; what else stands in its item. */
export const voiTable = (
  descriptor: readonly [number, number, number],
  entries: number[],
  ...more: Element[]
): Element => ({
  tag: '0028,3010',
  vr: 'SQ',
  value: {
    items: [
      [
        { tag: '0028,3002', vr: descriptor[1] < 0 ? 'SS' : 'US', value: [...descriptor] },
        ...more,
        { tag: '0028,3006', vr: 'OW', value: entries },
      ],
    ],
  },
});

export interface FilmOptions {
  readonly rows?: number;
  readonly columns?: number;
  readonly bitsAllocated?: number;
  readonly bitsStored?: number;
  readonly highBit?: number;
  readonly signed?: boolean;
  readonly photometric?: string;
  readonly samplesPerPixel?: number;
  readonly sopClass?: string;
  /** Samples, little endian words or bytes by `bitsAllocated`; big endian is made from them. */
  readonly samples?: readonly number[];
  readonly pixelData?: Element | null;
  /** Elements put in; one with the same tag as an element that is there replaces it, an empty tag list removes. */
  readonly extra?: readonly Element[];
  readonly without?: readonly string[];
}

const COMPUTED_RADIOGRAPHY = '1.2.840.10008.5.1.4.1.1.1';

/** The elements of a small radiograph with invented values, in the order of their tags. */
export function filmElements(options: FilmOptions = {}): Element[] {
  const rows = options.rows ?? 2;
  const columns = options.columns ?? 3;
  const bitsAllocated = options.bitsAllocated ?? 16;
  const bitsStored = options.bitsStored ?? Math.min(12, bitsAllocated);
  const samplesPerPixel = options.samplesPerPixel ?? 1;
  const samples =
    options.samples ?? Array.from({ length: rows * columns * samplesPerPixel }, (_, i) => i * 10);
  const us = (tag: Element['tag'], value: number): Element => ({ tag, vr: 'US', value: [value] });
  const pixelData: Element | null =
    options.pixelData === undefined
      ? {
          tag: '7fe0,0010',
          vr: bitsAllocated > 8 ? 'OW' : 'OB',
          value: bitsAllocated > 8 ? samples : Uint8Array.from(samples),
        }
      : options.pixelData;
  const base: Element[] = [
    { tag: '0008,0016', vr: 'UI', value: options.sopClass ?? COMPUTED_RADIOGRAPHY },
    { tag: '0008,0018', vr: 'UI', value: '2.25.1234' },
    { tag: '0008,0060', vr: 'CS', value: 'CR' },
    us('0028,0002', samplesPerPixel),
    { tag: '0028,0004', vr: 'CS', value: options.photometric ?? 'MONOCHROME2' },
    us('0028,0010', rows),
    us('0028,0011', columns),
    us('0028,0100', bitsAllocated),
    us('0028,0101', bitsStored),
    us('0028,0102', options.highBit ?? bitsStored - 1),
    us('0028,0103', options.signed === true ? 1 : 0),
    ...(pixelData === null ? [] : [pixelData]),
  ];
  const replaced = new Set([...(options.extra ?? []).map(({ tag }) => tag), ...(options.without ?? [])]);
  return [...base.filter(({ tag }) => !replaced.has(tag)), ...(options.extra ?? [])].sort((a, b) =>
    a.tag < b.tag ? -1 : 1,
  );
}

/** A small radiograph as a file. */
export const filmFile = (options: FilmOptions, syntax?: string) => dicomFile(filmElements(options), syntax);

/** Pixel data in pieces, as compressed pictures are. */
export const inFragments = (...fragments: Uint8Array[]): Element => ({
  tag: '7fe0,0010',
  vr: 'OB',
  value: { fragments },
});
