import { headerSegments } from '../codecs/marker-segments.ts';
import { startsWith } from './jpeg-segments.ts';

/** EXIF orientation (tag 0112): which of the eight turnings and mirrorings makes the picture upright. */
export type ExifOrientation = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

const ORIENTATION_TAG = 0x0112;

/** The orientation in a TIFF block, from its first image directory; 1 when it has none. */
function fromTiff(block: DataView): ExifOrientation {
  const littleEndian = block.getUint16(0) === 0x4949;
  const directory = block.getUint32(4, littleEndian);
  const entries = block.getUint16(directory, littleEndian);
  for (let i = 0; i < entries; i++) {
    const entry = directory + 2 + 12 * i;
    if (block.getUint16(entry, littleEndian) !== ORIENTATION_TAG) continue;
    const value = block.getUint16(entry + 8, littleEndian);
    return value >= 1 && value <= 8 ? (value as ExifOrientation) : 1;
  }
  return 1;
}

/** The EXIF orientation of a JPEG file; 1, as stored, when there is none or it cannot be read. */
export function exifOrientation(jpeg: Uint8Array): ExifOrientation {
  const block = headerSegments(jpeg).find(({ marker, data }) => marker === 0xe1 && startsWith(data, 'Exif'));
  if (block === undefined) return 1;
  try {
    const { buffer, byteOffset, length } = block.data;
    return fromTiff(new DataView(buffer, byteOffset + 6, length - 6));
  } catch (thrown) {
    if (thrown instanceof RangeError) return 1;
    throw thrown;
  }
}
