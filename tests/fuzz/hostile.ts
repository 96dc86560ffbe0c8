import { constants, deflateRawSync } from 'node:zlib';
import { zipSync } from 'fflate';
import { dicomFile, type Element, type FilmOptions, filmElements, SYNTAX } from '../film/dicom-file.ts';
import { pngChunk } from '../film/picture/png-file.ts';
import { type Draw, oneOf } from './random.ts';
import { encapsulated, grey, type Seed } from './seeds.ts';

const MEGABYTE = 1 << 20;

/** Raw deflate data of so many megabytes of zeros: one block that ends on a byte, over and over. */
function deflatedZeros(megabytes: number, head = new Uint8Array(0)): Uint8Array {
  const block = deflateRawSync(Buffer.alloc(MEGABYTE), { finishFlush: constants.Z_FULL_FLUSH });
  const first = deflateRawSync(head, { finishFlush: constants.Z_FULL_FLUSH });
  const last = deflateRawSync(new Uint8Array(0));
  return new Uint8Array(Buffer.concat([first, ...new Array(megabytes).fill(block), last]));
}

const uint32 = (value: number, little = true): Uint8Array => {
  const bytes = new Uint8Array(4);
  new DataView(bytes.buffer).setUint32(0, value, little);
  return bytes;
};

/** Sequences within sequences (PS3.5 7.5), of undefined length, closed or left open. */
function nested(draw: Draw): Uint8Array {
  const depth = oneOf(draw, [3, 100, 3000, 20_000, 200_000]);
  const open = Buffer.from([
    0x08, 0, 0x40, 0x11, 0x53, 0x51, 0, 0, 255, 255, 255, 255, 0xfe, 255, 0, 0xe0, 255, 255, 255, 255,
  ]);
  const close = Buffer.from([0xfe, 255, 0x0d, 0xe0, 0, 0, 0, 0, 0xfe, 255, 0xdd, 0xe0, 0, 0, 0, 0]);
  const closed = draw(2) === 0 ? depth : draw(depth);
  const film = grey();
  const at = film.length - 2 * 40 * 60 - 12;
  return new Uint8Array(
    Buffer.concat([
      film.subarray(0, at),
      ...new Array(depth).fill(open),
      ...new Array(closed).fill(close),
      film.subarray(at),
    ]),
  );
}

/** A deflated data set (PS3.5 A.5) that goes on in one huge private element. */
function deflatedBomb(draw: Draw): Uint8Array {
  const megabytes = oneOf(draw, [10, 63, 300, 1000]);
  const whole = dicomFile(filmElements(), SYNTAX.deflated);
  const meta = 132 + 12 + new DataView(whole.buffer).getUint32(140, true);
  const element = Buffer.concat([
    Uint8Array.of(9, 0, 16, 16, 0x4f, 0x42, 0, 0),
    uint32(megabytes * MEGABYTE),
  ]);
  return new Uint8Array(Buffer.concat([whole.subarray(0, meta), deflatedZeros(megabytes, element)]));
}

/** A deflated frame that holds far more than its rows and columns. */
const deflatedFrameBomb = (draw: Draw): Uint8Array => {
  const side = oneOf(draw, [40, 5000, 9999]);
  const pixelData = encapsulated(deflatedZeros(oneOf(draw, [1, 64, 500])));
  return grey({ rows: side, columns: side, pixelData }, '1.2.840.10008.1.2.8.1');
};

function pngBomb(draw: Draw): Uint8Array {
  const header = new Uint8Array(13);
  header.set(uint32(oneOf(draw, [1, 1000, 9999, 0x7fffffff]), false), 0);
  header.set(uint32(oneOf(draw, [1, 1000, 9999, 0x7fffffff]), false), 4);
  header.set([oneOf(draw, [1, 8, 16]), oneOf(draw, [0, 2, 3, 4, 6]), 0, 0, oneOf(draw, [0, 1])], 8);
  const data = Buffer.concat([
    Uint8Array.of(0x78, 0x9c),
    deflatedZeros(oneOf(draw, [1, 60, 900])),
    uint32(1),
  ]);
  return new Uint8Array(
    Buffer.concat([
      Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
      pngChunk('IHDR', header),
      pngChunk('IDAT', data),
      pngChunk('IEND', new Uint8Array(0)),
    ]),
  );
}

const zipped = new Map<string, Uint8Array>();

/** Made once: to pack hundreds of megabytes takes longer than to read them. */
function zippedZeros(megabytes: number, count: number): Uint8Array {
  const key = `${megabytes} ${count}`;
  const known = zipped.get(key);
  if (known !== undefined) return known;
  const zeros = new Uint8Array(megabytes * MEGABYTE);
  const entries = Array.from({ length: count }, (_, i) => [`IM/${i}`, [zeros, { level: 1 }]] as const);
  const bytes = zipSync(Object.fromEntries(entries) as unknown as Parameters<typeof zipSync>[0]);
  zipped.set(key, bytes);
  return bytes;
}

/** One entry that unpacks to very much, or many that do to a little; sizes as they are, or a lie. */
function zipBomb(draw: Draw): Uint8Array {
  const [megabytes, count] = oneOf(draw, [
    [1, 1],
    [1, 20],
    [16, 20],
    [100, 1],
  ] as const);
  const bytes = zippedZeros(megabytes, count).slice();
  if (draw(2) === 0) return bytes;
  // Central directory header 02014B50, uncompressed size at +24 (ZIP application note 4.3.12).
  const at = Buffer.from(bytes.buffer).indexOf(Buffer.from('PK\x01\x02', 'latin1'));
  bytes.set(uint32(oneOf(draw, [0, 1, 0x7fffffff, 0xffffffff])), at + 24);
  return bytes;
}

/** A header with one or more attributes of another film than its pixels are of. */
function mismatched(draw: Draw): Uint8Array {
  const size = () => oneOf(draw, [0, 1, 39, 40, 60, 61, 4000, 9999, 65_535]);
  const options: FilmOptions = {
    rows: size(),
    columns: size(),
    bitsAllocated: oneOf(draw, [1, 8, 12, 16, 32]),
    bitsStored: oneOf(draw, [0, 1, 8, 12, 16, 17]),
    highBit: oneOf(draw, [0, 7, 11, 15, 16, 65_535]),
    signed: draw(2) === 0,
    samplesPerPixel: oneOf(draw, [0, 1, 1, 3, 4]),
    photometric: oneOf(draw, ['MONOCHROME1', 'MONOCHROME2', 'RGB', 'YBR_FULL_422', 'PALETTE COLOR', '']),
    samples: new Array(oneOf(draw, [1, 2400, 7200])).fill(draw(256)),
    extra: [
      { tag: '0028,0008', vr: 'IS', value: oneOf(draw, ['1', '0', '-1', '2', '99999999', '1e99', 'x']) },
      { tag: '0028,1053', vr: 'DS', value: oneOf(draw, ['1', '0', '1e308', '-1e-308', 'nan']) },
      { tag: '0028,1050', vr: 'DS', value: oneOf(draw, ['0', '1e308', '-1', 'inf']) },
      { tag: '0028,1051', vr: 'DS', value: oneOf(draw, ['1', '0', '1e308', '1e-308', '-5']) },
      { tag: '0028,0030', vr: 'DS', value: oneOf(draw, ['0.1\\0.1', '0\\0', '1e308\\1e-308', '0.1']) },
      { tag: '0028,0120', vr: 'US', value: [oneOf(draw, [0, 65_535])] },
    ] satisfies Element[],
  };
  return dicomFile(filmElements(options), oneOf(draw, Object.values(SYNTAX)));
}

/** JPEG frame header, and JPEG 2000 SIZ: where rows and columns stand behind the marker (T.81 B.2.2, T.800 A.5.1). */
const SIZES = [
  { markers: [0xc0, 0xc1, 0xc2, 0xc3, 0xf7], rows: 5, columns: 7, bytes: 2 },
  { markers: [0x51], rows: 10, columns: 6, bytes: 4 },
];

/** A sound compressed film whose stream and header both say that it is huge. */
function huge(draw: Draw, seeds: readonly Seed[]): Uint8Array {
  const streams = /JPEG|HTJ2K|RLE/;
  const bytes = oneOf(
    draw,
    seeds.filter(({ name }) => streams.test(name)),
  ).bytes.slice();
  const view = new DataView(bytes.buffer);
  const side = oneOf(draw, [2000, 5000, 9999, 10_000]);
  for (let at = 0; at + 16 < bytes.length; at++) {
    if (view.getUint32(at, true) === 0x00100028 || view.getUint32(at, true) === 0x00110028) {
      view.setUint16(at + 8, side, true);
    }
    const place = bytes[at] === 0xff && SIZES.find(({ markers }) => markers.includes(bytes[at + 1]!));
    if (!place) continue;
    const set = place.bytes === 2 ? view.setUint16.bind(view) : view.setUint32.bind(view);
    set(at + place.rows, side);
    set(at + place.columns, side);
    break;
  }
  return bytes;
}

/** Valid JSON that is deep, long, or full of the names of objects' insides. */
function hostileCase(draw: Draw): Uint8Array {
  const depth = oneOf(draw, [10, 5000, 500_000]);
  const inner = oneOf(draw, [
    `${'['.repeat(depth)}${']'.repeat(depth)}`,
    `${'{"a":'.repeat(depth)}1${'}'.repeat(depth)}`,
    '{"__proto__":{"polluted":1},"constructor":{"prototype":{"polluted":1}}}',
    `"${'x'.repeat(5 * MEGABYTE)}"`,
    '1e999',
  ]);
  const record = `{"kind":"injury","id":"injury","label":${inner}}`;
  return new TextEncoder().encode(
    oneOf(draw, [
      inner,
      `{"format":"raybend-case","version":1,"case":${inner}}`,
      `{"format":"raybend-case","version":1,"case":{"id":"c","records":{"injury":${record}}}}`,
      `{"format":"raybend-case","version":${inner},"extra":${inner}}`,
    ]),
  );
}

const ATTACKS: readonly (readonly [
  name: string,
  readBy: Seed['readBy'],
  make: (draw: Draw, seeds: readonly Seed[]) => Uint8Array,
])[] = [
  ['nested sequences', 'films', nested],
  ['deflated bomb', 'films', deflatedBomb],
  ['deflated frame bomb', 'films', deflatedFrameBomb],
  ['PNG bomb', 'films', pngBomb],
  ['ZIP bomb', 'films', zipBomb],
  ['ZIP bomb as a case', 'cases', zipBomb],
  ['header against pixels', 'films', mismatched],
  ['huge by its header', 'films', huge],
  ['hostile case', 'cases', hostileCase],
];

/** An attack built outright; `header against pixels` and `huge` come more often than the slow bombs. */
export function attack(draw: Draw, seeds: readonly Seed[]): Seed {
  const cheap = ATTACKS.filter(([name]) => /against|huge|nested|case/.test(name));
  const [name, readBy, make] = oneOf(draw, draw(4) === 0 ? ATTACKS : cheap);
  return { name, readBy, bytes: make(draw, seeds) };
}
