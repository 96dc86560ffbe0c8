import { describe, expect, it } from 'vitest';
import { nodeFilmTools } from '../../src/cli/node-film-tools.ts';
import { sentence } from '../../src/film/film-error.ts';
import { readFilm } from '../../src/film/read-film.ts';
import { expectDcmtk, hasDcmtk, itWithDcmtk, throughDcmtk } from './dcmtk.ts';
import { dataSet, filmElements, filmFile, inFragments, SYNTAX, voiTable } from './dicom-file.ts';
import { openFilm, refusalOf } from './open.ts';
import { greyJpeg } from './picture/jpegs.ts';
import { pngFile } from './picture/png-file.ts';

const ascii = (text: string) => new TextEncoder().encode(text);

/** A JPEG that ends inside its coded data, as DICOM. */
const brokenJpeg = filmFile(
  { rows: 12, columns: 16, bitsAllocated: 8, pixelData: inFragments(greyJpeg().subarray(0, 350)) },
  SYNTAX.jpegBaseline,
);

/** A small JPEG that says it has so many rows and columns (T.81 B.2.2). */
function claiming(side: number): Uint8Array {
  const bytes = new Uint8Array(greyJpeg());
  const frame = Buffer.from(bytes).indexOf(Uint8Array.of(0xff, 0xc0));
  new DataView(bytes.buffer).setUint16(frame + 5, side);
  new DataView(bytes.buffer).setUint16(frame + 7, side);
  return bytes;
}

const table: readonly [what: string, bytes: Uint8Array, error: object][] = [
  ['an empty file', new Uint8Array(0), { kind: 'empty-file' }],
  ['one byte', Uint8Array.of(0), { kind: 'not-a-film' }],
  [
    'a text named .dcm',
    ascii('Dear colleague,\nhere is the film.\n'),
    { kind: 'not-a-film', looksLike: 'a text file' },
  ],
  ['a PDF', ascii('%PDF-1.7 '.padEnd(200)), { kind: 'not-a-film', looksLike: 'a PDF document' }],
  ['a ZIP archive', ascii('PK\x03\x04'.padEnd(200)), { kind: 'not-a-film', looksLike: 'a ZIP archive' }],
  [
    'noise',
    Uint8Array.from({ length: 500 }, (_, i) => (i * 89 + 7) & 255),
    { kind: 'not-a-film', looksLike: null },
  ],
  ['only the preamble', filmFile({}).subarray(0, 132), { kind: 'missing-attribute', tag: '(0002,0010)' }],
  ['a DICOM file cut in its header', filmFile({}).subarray(0, 250), { kind: 'damaged', format: 'dicom' }],
  [
    'a DICOM file cut in its pixels',
    filmFile({ rows: 100, columns: 100 }).subarray(0, 5000),
    { kind: 'truncated', expectedBytes: 20_000 },
  ],
  ['no pixel data', filmFile({ pixelData: null }), { kind: 'no-pixel-data' }],
  [
    // Found by the hunt in tests/fuzz, file 249 of its seed.
    'a compressed picture that is said not to be one',
    filmFile({ rows: 12, columns: 16, bitsAllocated: 8, pixelData: inFragments(greyJpeg()) }),
    { kind: 'damaged', format: 'dicom', detail: expect.stringContaining('says that it is not compressed') },
  ],
  ['0 rows', filmFile({ rows: 0, samples: [1] }), { kind: 'bad-attribute', keyword: 'Rows', found: '0' }],
  ['0 columns', filmFile({ columns: 0, samples: [1] }), { kind: 'bad-attribute', keyword: 'Columns' }],
  [
    '65,535 × 65,535 with little data',
    filmFile({ rows: 65_535, columns: 65_535, samples: [1, 2] }),
    { kind: 'too-large', columns: 65_535, rows: 65_535 },
  ],
  [
    '4,000 × 4,000 with 40 kB',
    filmFile({ rows: 4000, columns: 4000, samples: new Array(20_000).fill(1) }),
    { kind: 'truncated', expectedBytes: 32_000_000, foundBytes: 40_000 },
  ],
  [
    // A blank stream of 12 × 16 pixels whose header and whose file say 9,000 × 9,000.
    'a compressed picture far too short for its size',
    filmFile(
      { rows: 9000, columns: 9000, bitsAllocated: 8, pixelData: inFragments(claiming(9000)) },
      SYNTAX.jpegBaseline,
    ),
    { kind: 'damaged', detail: 'its compressed picture is far too short for its size' },
  ],
  [
    'a JPEG far too short for its size',
    claiming(9000),
    { kind: 'damaged', detail: 'it is far too short for its size' },
  ],
  ['32 bits allocated', filmFile({ bitsAllocated: 32 }), { kind: 'bad-attribute', keyword: 'BitsAllocated' }],
  // PS3.3 A.8.2, multi-frame single bit secondary capture: sound, and no radiograph.
  [
    'one bit a pixel',
    filmFile({
      sopClass: '1.2.840.10008.5.1.4.1.1.7.1',
      bitsAllocated: 1,
      bitsStored: 1,
      rows: 4,
      columns: 8,
      pixelData: { tag: '7fe0,0010', vr: 'OB', value: Uint8Array.of(1, 2, 3, 4) },
    }),
    {
      kind: 'unsupported-picture',
      detail: 'each of its pixels is one bit, black or white, with no grey between',
    },
  ],
  [
    'one bit stored in a byte',
    filmFile({ bitsAllocated: 8, bitsStored: 1 }),
    { kind: 'unsupported-picture' },
  ],
  ['20 bits stored', filmFile({ bitsStored: 20 }), { kind: 'bad-attribute', keyword: 'BitsStored' }],
  [
    'a high bit below the bits stored',
    filmFile({ highBit: 3 }),
    { kind: 'bad-attribute', keyword: 'HighBit' },
  ],
  ['a colour model that is not read', filmFile({ photometric: 'HSV' }), { kind: 'unsupported-picture' }],
  [
    'grey with three samples',
    filmFile({ samplesPerPixel: 3 }),
    { kind: 'bad-attribute', keyword: 'SamplesPerPixel' },
  ],
  [
    'frames that are no number',
    filmFile({ extra: [{ tag: '0028,0008', vr: 'IS', value: 'many' }] }),
    { kind: 'bad-attribute', keyword: 'NumberOfFrames', found: 'many' },
  ],
  [
    'more frames than there is data for',
    filmFile({ extra: [{ tag: '0028,0008', vr: 'IS', value: '1000000' }] }),
    { kind: 'truncated' },
  ],
  ['a palette that is missing', filmFile({ photometric: 'PALETTE COLOR' }), { kind: 'unsupported-picture' }],
  ['no transfer syntax', filmFile({}, ''), { kind: 'missing-attribute', tag: '(0002,0010)' }],
  [
    'a transfer syntax nobody knows',
    filmFile({}, '1.2.3'),
    { kind: 'unsupported-transfer-syntax', uid: '1.2.3' },
  ],
  [
    'a JPEG stream that stops',
    brokenJpeg,
    { kind: 'damaged', detail: expect.stringMatching(/stops before its end/) },
  ],
  [
    'compressed pixel data without a fragment',
    filmFile({ pixelData: inFragments() }, SYNTAX.jpegLossless),
    { kind: 'damaged' },
  ],
  [
    'a JPEG stream that is none',
    filmFile({ pixelData: inFragments(new Uint8Array(40)) }, SYNTAX.jpegLossless),
    { kind: 'damaged', detail: expect.stringMatching(/no readable header/) },
  ],
  [
    'an RLE header with the wrong count',
    filmFile({ pixelData: inFragments(new Uint8Array(80)) }, SYNTAX.rle),
    { kind: 'damaged', detail: expect.stringMatching(/0 segments where 2 are needed/) },
  ],
  [
    'RLE data too short for any run',
    filmFile(
      { rows: 1000, columns: 1000, pixelData: inFragments(Uint8Array.of(2, ...new Array(99).fill(0))) },
      SYNTAX.rle,
    ),
    { kind: 'truncated', expectedBytes: 2_000_000 },
  ],
  [
    'deflated data that is not',
    Uint8Array.from([...filmFile({}, SYNTAX.deflated).subarray(0, -40), ...new Array(40).fill(0xaa)]),
    { kind: 'damaged' },
  ],
];

describe('files that are not opened', () => {
  it.each(table)('%s', async (_, bytes, error) => {
    const refused = await refusalOf(bytes);
    expect(refused).toMatchObject(error);
    // A whole sentence about this file, without the insides of a program.
    expect(sentence(refused, 'film.dcm')).toMatch(/^“film\.dcm” .+\. .+\.$/);
    expect(sentence(refused, 'film.dcm')).not.toMatch(/undefined|NaN|\[object|dicomParser/);
  });

  it('one bad file does not stop the next', async () => {
    expect((await refusalOf(brokenJpeg)).kind).toBe('damaged');
    await openFilm(filmFile({}));
  });
});

describe('mutated files', () => {
  /** A small generator with a seed (Park and Miller 1988), so that a failure can be run again. */
  const generator = (seed: number) => {
    let state = seed;
    return (below: number) => {
      state = (state * 48_271) % 2_147_483_647;
      return state % below;
    };
  };

  const rows = 16;
  const columns = 16;
  const seeds = (): [string, Uint8Array][] => [
    ['explicit', filmFile({ rows, columns })],
    ['implicit', filmFile({ rows, columns }, SYNTAX.implicit)],
    ['big endian', filmFile({ rows, columns }, SYNTAX.bigEndian)],
    ['deflated', filmFile({ rows, columns }, SYNTAX.deflated)],
    ['without preamble', dataSet(filmElements({ rows, columns }))],
    ['sequences', filmFile({ extra: [voiTable([3, 0, 8], [1, 2, 3])] })],
    [
      'JPEG in DICOM',
      filmFile(
        { rows: 12, columns: 16, bitsAllocated: 8, pixelData: inFragments(greyJpeg()) },
        SYNTAX.jpegBaseline,
      ),
    ],
    ['JPEG', greyJpeg()],
    [
      'PNG',
      pngFile({
        columns: 2,
        rows: 2,
        depth: 8,
        colourType: 0,
        lines: [
          [1, 2],
          [3, 4],
        ],
      }),
    ],
    ...(!hasDcmtk
      ? []
      : ([
          ['RLE', throughDcmtk('dcmcrle', [], filmFile({ rows, columns }))],
          ['JPEG Lossless', throughDcmtk('dcmcjpeg', ['+e1'], filmFile({ rows, columns }))],
          ['JPEG Extended', throughDcmtk('dcmcjpeg', ['+ee', '+bt'], filmFile({ rows, columns }))],
          ['JPEG-LS', throughDcmtk('dcmcjpls', ['+el'], filmFile({ rows, columns }))],
        ] as [string, Uint8Array][])),
  ];

  itWithDcmtk('has every compression of dcmtk to mutate', () => {
    expectDcmtk();
  });

  it.each(seeds())(
    '%s: 300 mutations each end in a film or a refusal, in time',
    async (_, good) => {
      const next = generator(20_251_125);
      for (let run = 0; run < 300; run++) {
        const bytes = good.slice(0, next(4) === 0 ? next(good.length) : good.length);
        for (let change = 0; change <= next(6) && bytes.length > 0; change++) {
          bytes[next(bytes.length)] = next(3) === 0 ? 0xff : next(256);
        }
        const result = await readFilm(bytes, nodeFilmTools);
        if (result.ok) {
          const { pixels, columns: across, rows: down } = result.value.levels[0]!;
          expect(pixels.length, `run ${run}`).toBe(across * down);
        } else {
          expect(sentence(result.error, 'film')).not.toMatch(/undefined|NaN|\[object/);
        }
      }
    },
    60_000,
  );
});
