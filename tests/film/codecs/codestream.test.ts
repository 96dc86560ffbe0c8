import { describe, expect, it } from 'vitest';
import {
  endsWithImageEnd,
  jpeg2000Halvings,
  readJpeg2000Header,
  readJpegHeader,
} from '../../../src/film/codecs/codestream.ts';
import { COLUMNS, colourJpeg, greyJpeg, progressiveJpeg, ROWS, withOrientation } from '../picture/jpegs.ts';
import { htj2kStream, jpeg2000Stream } from './streams.ts';

describe('what a JPEG stream says of itself (T.81 B.2.2)', () => {
  it.each([
    ['baseline', greyJpeg(), 'baseline', 1],
    ['progressive', progressiveJpeg(), 'progressive', 1],
    ['colour', colourJpeg(), 'baseline', 3],
    ['with application data before it', withOrientation(6), 'baseline', 1],
  ] as const)('%s', (_, bytes, process, components) => {
    expect(readJpegHeader(bytes)).toEqual({
      process,
      components,
      columns: COLUMNS,
      rows: ROWS,
      precision: 8,
    });
  });

  // Frame headers by hand: marker, length 11, precision, rows 256, columns 513, one component.
  const header = (marker: number, precision: number) =>
    Uint8Array.of(0xff, 0xd8, 0xff, marker, 0, 11, precision, 1, 0, 2, 1, 1, 1, 0x11, 0);
  it.each([
    [0xc1, 12, 'extended'],
    [0xc3, 16, 'lossless'],
    [0xf7, 10, 'jpeg-ls'],
    [0xc9, 8, 'other'],
  ] as const)('marker %i', (marker, precision, process) => {
    const expected = { process, precision, columns: 513, rows: 256, components: 1 };
    expect(readJpegHeader(header(marker, precision))).toEqual(expected);
  });

  it.each([
    ['nothing', new Uint8Array(0)],
    ['no start of image', Uint8Array.of(1, 2, 3, 4, 5, 6)],
    ['an image that ends at once', Uint8Array.of(0xff, 0xd8, 0xff, 0xd9, 0, 0, 0, 0)],
    ['a segment of length 0', Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, 0, 0, 0xff, 0xc0)],
    ['a frame cut short', header(0xc0, 8).subarray(0, 9)],
  ])('gives null for %s', (_, bytes) => {
    expect(readJpegHeader(bytes)).toBeNull();
  });

  it('finds the end of the image, or its lack', () => {
    expect(endsWithImageEnd(greyJpeg())).toBe(true);
    expect(endsWithImageEnd(Uint8Array.of(...greyJpeg(), 0))).toBe(true);
    expect(endsWithImageEnd(greyJpeg().subarray(0, 300))).toBe(false);
  });
});

describe('what a JPEG 2000 stream says of itself (T.800 A.5.1)', () => {
  // SOC, SIZ, Lsiz 41, Rsiz 0, Xsiz 300, Ysiz 200, XOsiz 44, YOsiz 0, tiles, one component of 10 bits.
  const siz = [
    0xff, 0x4f, 0xff, 0x51, 0, 41, 0, 0, 0, 0, 1, 44, 0, 0, 0, 200, 0, 0, 0, 44, 0, 0, 0, 0, 0, 0, 1, 44, 0,
    0, 0, 200, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 9, 1, 1, 0, 0,
  ];
  const expected = { process: 'jpeg-2000', columns: 256, rows: 200, components: 1, precision: 10 };

  it('bare', () => {
    expect(readJpeg2000Header(Uint8Array.from(siz))).toEqual(expected);
  });

  it('in a box', () => {
    expect(readJpeg2000Header(Uint8Array.from([...new Array(85).fill(7), ...siz]))).toEqual(expected);
  });

  it('how often it can be halved, as its encoder set it (COD, T.800 A.6.1)', () => {
    // The bytes after “ff 52 00 0c 00 00 00 02 00”, and after “ff 52 00 0c 00 00 00 01 00”, in `streams.ts`.
    expect(jpeg2000Halvings(jpeg2000Stream())).toBe(2);
    expect(jpeg2000Halvings(Uint8Array.from([...new Array(85).fill(7), ...jpeg2000Stream()]))).toBe(2);
    expect(jpeg2000Halvings(htj2kStream())).toBe(1);
  });

  it.each([
    ['where the picture begins off the corner of its grid', Uint8Array.from(siz)],
    ['where no coding style follows', jpeg2000Stream().subarray(0, 45)],
    [
      'where a tile comes first',
      Uint8Array.from([...jpeg2000Stream().subarray(0, 43), 0xff, 0x90, ...jpeg2000Stream().subarray(43)]),
    ],
    ['of nothing', new Uint8Array(0)],
  ])('cannot be halved %s', (_, bytes) => {
    expect(jpeg2000Halvings(bytes)).toBe(0);
  });

  it('gives null where there is none', () => {
    expect(readJpeg2000Header(new Uint8Array(100))).toBeNull();
    expect(readJpeg2000Header(new Uint8Array(3))).toBeNull();
  });
});
