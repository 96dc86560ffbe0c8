import { expect, it } from 'vitest';
import { headerSegments, segmentsFrom } from '../../../src/film/codecs/marker-segments.ts';
import { greyJpeg } from '../picture/jpegs.ts';

it('lists the segments before the scan', () => {
  // T.81 table B.1: APP0, DQT, SOF0, DHT twice; the scan itself (DA) is not one of them.
  const markers = headerSegments(greyJpeg()).map(({ marker }) => marker);
  expect(markers).toEqual([0xe0, 0xdb, 0xc0, 0xc4, 0xc4]);
});

it('goes over bytes that fill the space before a marker', () => {
  // B.1.1.2: any marker may be preceded by any number of bytes FF.
  const bytes = Uint8Array.of(0xff, 0xd8, 0xff, 0xff, 0xff, 0xe1, 0, 3, 7, 0xff, 0xda);
  expect(headerSegments(bytes)).toEqual([{ marker: 0xe1, data: Uint8Array.of(7), from: 4, to: 9 }]);
});

it.each([
  ['no file', []],
  ['a length below its own two bytes', [0xff, 0xd8, 0xff, 0xe1, 0, 1, 9, 9]],
  ['a length that is not there', [0xff, 0xd8, 0xff, 0xe1, 0]],
  ['a segment that is cut short', [0xff, 0xd8, 0xff, 0xe1, 0, 9, 1, 2]],
  ['a picture that ends at once', [0xff, 0xd8, 0xff, 0xd9, 0xff, 0xe1, 0, 2]],
])('finds nothing in %s', (_, bytes) => {
  expect(headerSegments(Uint8Array.from(bytes))).toEqual([]);
});

it('goes over markers without a length, and on into the scan where that is asked for', () => {
  // Table B.1: TEM (01), RST0 (D0) and SOI (D8) stand alone; DA is the start of a scan.
  const bytes = Uint8Array.of(
    0xff,
    0xd8,
    0xff,
    0x01,
    0xff,
    0xd0,
    0xff,
    0xe1,
    0,
    2,
    0xff,
    0xda,
    0,
    3,
    1,
    5,
    5,
  );
  expect(headerSegments(bytes).map(({ marker, from, to }) => [marker, from, to])).toEqual([[0xe1, 6, 10]]);
  expect([...segmentsFrom(bytes, 0)].map(({ marker, from, to }) => [marker, from, to])).toEqual([
    [0xe1, 6, 10],
    [0xda, 10, 15],
  ]);
});
