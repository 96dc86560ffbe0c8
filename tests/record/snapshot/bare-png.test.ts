import { decode, encode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { barePng } from '../../../src/record/snapshot/bare-png.ts';

/** A picture whose file says a name in a text chunk (PNG, 11.3.4.3). */
const PICTURE = encode({
  width: 3,
  height: 2,
  data: Uint8Array.from({ length: 18 }, (_, index) => index * 14),
  channels: 3,
  text: { Author: 'Quillfeather' },
});

describe('barePng', () => {
  it('keeps the pixels and leaves behind what stands beside them, by an independent reader', () => {
    expect(decode(PICTURE).text).toEqual({ Author: 'Quillfeather' });
    const bare = barePng(PICTURE, null);
    expect(new TextDecoder('latin1').decode(bare)).not.toContain('Quillfeather');
    const read = decode(bare, { checkCrc: true });
    expect(read.text).toEqual({});
    expect(read.resolution).toBeUndefined();
    expect(Array.from(read.data)).toEqual(Array.from(decode(PICTURE).data));
  });

  it('says how large a pixel is, in pixels to the metre (PNG, 11.3.5.3)', () => {
    // 1 / 0.19 mm is 5.263 pixels to the millimetre.
    expect(decode(barePng(PICTURE, 1 / 0.19), { checkCrc: true }).resolution).toEqual({
      x: 5263,
      y: 5263,
      unit: 1,
    });
  });
});
