import { expect, it } from 'vitest';
import { segmentsOf, without } from '../../../src/film/picture/jpeg-segments.ts';
import { greyJpeg } from './jpegs.ts';

it('lists the segments before the scan', () => {
  // T.81 table B.1: APP0, DQT, SOF0, DHT twice; the scan itself (DA) is not one of them.
  const markers = segmentsOf(greyJpeg()).map(({ marker }) => marker);
  expect(markers).toEqual([0xe0, 0xdb, 0xc0, 0xc4, 0xc4]);
});

it('goes over bytes that fill the space before a marker', () => {
  // B.1.1.2: any marker may be preceded by any number of bytes FF.
  const bytes = Uint8Array.of(0xff, 0xd8, 0xff, 0xff, 0xff, 0xe1, 0, 3, 7, 0xff, 0xda);
  expect(segmentsOf(bytes)).toEqual([{ marker: 0xe1, data: Uint8Array.of(7), from: 4, to: 9 }]);
});

it.each([
  ['no file', []],
  ['a length below its own two bytes', [0xff, 0xd8, 0xff, 0xe1, 0, 1, 9, 9]],
  ['a length that is not there', [0xff, 0xd8, 0xff, 0xe1, 0]],
])('finds nothing in %s', (_, bytes) => {
  expect(segmentsOf(Uint8Array.from(bytes))).toEqual([]);
});

it('leaves segments out', () => {
  const bytes = Uint8Array.of(
    0xff,
    0xd8,
    0xff,
    0xe1,
    0,
    3,
    7,
    0xff,
    0xe2,
    0,
    2,
    0xff,
    0xe3,
    0,
    3,
    8,
    0xff,
    0xda,
  );
  const [first, , third] = segmentsOf(bytes);
  expect(without(bytes, [first!, third!])).toEqual(Uint8Array.of(0xff, 0xd8, 0xff, 0xe2, 0, 2, 0xff, 0xda));
  expect(without(bytes, [])).toEqual(bytes);
});
