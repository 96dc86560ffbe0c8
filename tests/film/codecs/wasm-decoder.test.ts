import dcmjsCodecs from 'dcmjs-codecs';
import { beforeAll, describe, expect, it } from 'vitest';
import { readFilm } from '../../../src/film/read-film.ts';
import {
  dicomFile,
  type Element,
  type FilmOptions,
  filmElements,
  inFragments,
  SYNTAX,
} from '../dicom-file.ts';
import { openFilm, refusalOf, storedValues } from '../open.ts';
import { COLUMNS, greyJpeg, ROWS } from '../picture/jpegs.ts';

const { NativeCodecs, Transcoder } = dcmjsCodecs;

const rows = 40;
const columns = 60;
const samples = Array.from(
  { length: rows * columns },
  (_, i) => (Math.round(2000 + 1500 * Math.sin(i / 300)) + (i % 5)) & 0xfff,
);

/** The same film in another transfer syntax, written by dcmjs-codecs 0.0.8: an encoder the product does not use. */
function transcoded(uid: string, options: FilmOptions = {}): Uint8Array {
  const file = dicomFile(filmElements({ rows, columns, samples, ...options }), SYNTAX.explicit);
  const transcoder = new Transcoder(file.buffer as ArrayBuffer);
  transcoder.transcode(uid);
  return new Uint8Array(transcoder.getDicomPart10());
}

beforeAll(() => NativeCodecs.initializeAsync());

describe('WebAssembly codecs, on streams of another encoder', () => {
  it.each([
    ['HTJ2K lossless', '1.2.840.10008.1.2.4.201'],
    ['HTJ2K lossless, RPCL', '1.2.840.10008.1.2.4.202'],
    ['JPEG 2000 lossless', '1.2.840.10008.1.2.4.90'],
    ['JPEG-LS lossless', '1.2.840.10008.1.2.4.80'],
    ['JPEG Lossless', '1.2.840.10008.1.2.4.70'],
    ['RLE', '1.2.840.10008.1.2.5'],
  ])('%s: exact', async (_, uid) => {
    const film = await openFilm(transcoded(uid));
    expect(film.facts.transferSyntaxUid).toBe(uid);
    expect(storedValues(film)).toEqual(samples);
  });

  const lossless = [
    ['HTJ2K', '1.2.840.10008.1.2.4.201'],
    ['JPEG 2000', '1.2.840.10008.1.2.4.90'],
    ['JPEG-LS', '1.2.840.10008.1.2.4.80'],
    ['RLE', '1.2.840.10008.1.2.5'],
  ] as const;

  it.each(lossless)('%s of signed values of 16 bits: exact', async (_, uid) => {
    const signed = samples.map((value) => 8 * value - 16_000);
    const film = await openFilm(transcoded(uid, { samples: signed, signed: true, bitsStored: 16 }));
    expect(storedValues(film)).toEqual(signed);
  });

  it.each(lossless)('%s of colour: the greys of the uncompressed film', async (_, uid) => {
    const colour = {
      bitsAllocated: 8,
      photometric: 'RGB',
      samplesPerPixel: 3,
      samples: Array.from({ length: 3 * rows * columns }, (_, i) => (i * 7) & 255),
      extra: [{ tag: '0028,0006', vr: 'US', value: [0] } as Element],
    };
    const native = await openFilm(dicomFile(filmElements({ rows, columns, ...colour })));
    const film = await openFilm(transcoded(uid, colour));
    expect(storedValues(film)).toEqual(storedValues(native));
    expect(film.facts.wasColour).toBe(true);
  });

  it.each([
    ['HTJ2K', '1.2.840.10008.1.2.4.203', 40],
    ['JPEG-LS near lossless', '1.2.840.10008.1.2.4.81', 10],
    ['JPEG 2000', '1.2.840.10008.1.2.4.91', 40],
  ])('%s, lossy: close to what was written', async (_, uid, tolerance) => {
    // 1 % of the range for the wavelets (common practice, no source); JPEG-LS allows 10, its encoder's setting.
    const film = await openFilm(transcoded(uid));
    storedValues(film).forEach((value, i) => {
      expect(Math.abs(value - samples[i]!)).toBeLessThanOrEqual(tolerance);
    });
  });

  it.each([
    ['JPEG-LS', '1.2.840.10008.1.2.4.80'],
    ['JPEG 2000', '1.2.840.10008.1.2.4.90'],
    ['HTJ2K', '1.2.840.10008.1.2.4.201'],
  ])('%s: a stream of nonsense is refused, and the codec works again afterwards', async (_, uid) => {
    const good = transcoded(uid);
    const broken = good.slice();
    // Everything but the header of the stream and its last bytes.
    const start = good.length - Math.floor(good.length / 2);
    broken.fill(0xff, start, good.length - 12);
    const result = await openFilm(broken).then(storedValues, (refused: Error) => refused.message);
    expect(result).not.toEqual(samples);
    expect(storedValues(await openFilm(good))).toEqual(samples);
  });

  it('a decoder that cannot be fetched is not blamed on the file, and is asked for again', async () => {
    // A codec that no other test of this file uses.
    const film = dicomFile(
      filmElements({
        rows: ROWS,
        columns: COLUMNS,
        bitsAllocated: 8,
        pixelData: inFragments(greyJpeg()),
      }),
      SYNTAX.jpegBaseline,
    );
    const offline = { wasm: () => Promise.reject(new TypeError('Failed to fetch')) };
    expect(await readFilm(film, offline)).toEqual({
      ok: false,
      error: { kind: 'codec-not-loaded', codec: 'JPEG' },
    });
    expect(await readFilm(greyJpeg(), offline)).toEqual({
      ok: false,
      error: { kind: 'codec-not-loaded', codec: 'JPEG' },
    });
    await openFilm(film);
  });

  it('a header that disagrees with the stream is refused before the codec runs', async () => {
    const file = transcoded('1.2.840.10008.1.2.4.90');
    // (0028,0011) Columns US: 60 becomes 61.
    const at = file.findIndex((_, i) =>
      [0x28, 0, 0x11, 0, 0x55, 0x53, 2, 0, 60].every((byte, k) => file[i + k] === byte),
    );
    file[at + 8] = 61;
    expect(await refusalOf(file)).toEqual({
      kind: 'damaged',
      format: 'dicom',
      detail: 'its compressed picture is 60 × 40 where the file says 61 × 40',
    });
  });
});
