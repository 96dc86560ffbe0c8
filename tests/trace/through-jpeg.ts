import loadTurbo from '@cornerstonejs/codec-libjpeg-turbo-8bit/wasmjs';
import type { BonePicture } from '../../src/trace/picture.ts';

const turbo = await loadTurbo();

/** An 8-bit picture written as a grey JPEG file and read again. */
export function throughJpeg({ columns, rows, values }: BonePicture, quality: number): Float32Array {
  const encoder = new turbo.JPEGEncoder();
  encoder
    .getDecodedBuffer({ width: columns, height: rows, bitsPerSample: 8, componentCount: 1, isSigned: false })
    .set(values);
  encoder.setQuality(quality);
  encoder.encode();
  const file = encoder.getEncodedBuffer().slice();
  encoder.delete();
  const decoder = new turbo.JPEGDecoder();
  decoder.getEncodedBuffer(file.length).set(file);
  decoder.decode();
  const read = Float32Array.from(decoder.getDecodedBuffer());
  decoder.delete();
  return read;
}
