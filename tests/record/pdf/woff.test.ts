import { describe, expect, it } from 'vitest';
import { unpackWoff } from '../../../src/record/pdf/woff.ts';
import { failed, succeeded } from '../../case/samples.ts';
import { FACES } from './faces.ts';

const everyFile = Object.entries(FACES).flatMap(([face, files]) =>
  files.map((file: Uint8Array, index: number) => [`${face} ${index}`, file] as const),
);

/** OpenType 1.9, "Calculating checksums": the sum of a table's 32-bit words, zeros after its end. */
function checksum(bytes: Uint8Array): number {
  let sum = 0;
  for (let at = 0; at < bytes.length; at += 4) {
    const word =
      (((bytes[at] ?? 0) << 24) |
        ((bytes[at + 1] ?? 0) << 16) |
        ((bytes[at + 2] ?? 0) << 8) |
        (bytes[at + 3] ?? 0)) >>>
      0;
    sum = (sum + word) >>> 0;
  }
  return sum;
}

describe('unpackWoff', () => {
  it.each(everyFile)('gives the font that was packed: %s', (_, file) => {
    const font = succeeded(unpackWoff(file));
    const view = new DataView(font.buffer, font.byteOffset, font.length);
    const woff = new DataView(file.buffer, file.byteOffset, file.length);
    const count = view.getUint16(4);
    expect(count).toBe(woff.getUint16(12));
    // WOFF 1.0, section 3: totalSfntSize is the size of the unpacked font.
    expect(font.length).toBe(woff.getUint32(16));
    for (let index = 0; index < count; index += 1) {
      const entry = 12 + index * 16;
      const tag = String.fromCharCode(...font.subarray(entry, entry + 4));
      const table = font.slice(
        view.getUint32(entry + 8),
        view.getUint32(entry + 8) + view.getUint32(entry + 12),
      );
      // The checksum of `head` is taken with its checkSumAdjustment, at byte 8, as zero.
      if (tag === 'head') table.fill(0, 8, 12);
      expect(checksum(table), tag).toBe(view.getUint32(entry + 4));
    }
  });

  it('leaves a font that is not packed as it is', () => {
    const font = succeeded(unpackWoff(FACES.sans[0] as Uint8Array));
    expect(succeeded(unpackWoff(font))).toBe(font);
  });

  it('names a damaged file', () => {
    const file = FACES.sans[0] as Uint8Array;
    expect(failed(unpackWoff(file.subarray(0, 60))).kind).toBe('font-unreadable');
    expect(failed(unpackWoff(file.subarray(0, 3000))).kind).toBe('font-unreadable');
    const harmed = file.slice();
    // In the packed outlines: an entry is a tag, then the offset (WOFF 1.0, section 4).
    const glyf = Array.from({ length: 20 }, (_, index) => 44 + index * 20).find(
      (entry) => String.fromCharCode(...harmed.subarray(entry, entry + 4)) === 'glyf',
    )!;
    const offset = new DataView(harmed.buffer, harmed.byteOffset).getUint32(glyf + 4);
    harmed.fill(0xff, offset, offset + 8);
    expect(failed(unpackWoff(harmed)).kind).toBe('font-unreadable');
  });
});
