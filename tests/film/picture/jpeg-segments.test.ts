import { expect, it } from 'vitest';
import { headerSegments } from '../../../src/film/codecs/marker-segments.ts';
import { without } from '../../../src/film/picture/jpeg-segments.ts';

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
  const [first, , third] = headerSegments(bytes);
  expect(without(bytes, [first!, third!])).toEqual(Uint8Array.of(0xff, 0xd8, 0xff, 0xe2, 0, 2, 0xff, 0xda));
  expect(without(bytes, [])).toEqual(bytes);
});
