import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { nodeFilmTools } from '../../../src/cli/node-film-tools.ts';
import { readFilm } from '../../../src/film/read-film.ts';
import { expectDcmtk, itWithDcmtk, throughDcmtk } from '../dcmtk.ts';
import {
  dicomFile,
  type Element,
  type FilmOptions,
  filmElements,
  inFragments,
  SYNTAX,
} from '../dicom-file.ts';
import { openFilm, refusalOf, storedValues } from '../open.ts';

const film = (options: FilmOptions, syntax?: string) => openFilm(dicomFile(filmElements(options), syntax));

describe('several frames', () => {
  const frames = (count: string): Element => ({ tag: '0028,0008', vr: 'IS', value: count });
  const samples = [1, 2, 3, 4, 5, 6, 11, 12, 13, 14, 15, 16];

  it('gives the frame asked for, and says how many there are', async () => {
    const file = dicomFile(filmElements({ samples, extra: [frames('2')] }));
    expect(storedValues(await openFilm(file, 0))).toEqual([1, 2, 3, 4, 5, 6]);
    const second = await openFilm(file, 1);
    expect(storedValues(second)).toEqual([11, 12, 13, 14, 15, 16]);
    expect(second.frame).toEqual({ index: 1, count: 2 });
    await expect(openFilm(file, 2)).rejects.toThrow(RangeError);
  });

  it('says nothing of frames where there is one', async () => {
    expect((await film({})).frame).toBeUndefined();
  });

  const rows = 64;
  const columns = 64;
  const noise = Array.from({ length: 2 * rows * columns }, (_, i) => (i * 37) % 4096);
  const halves = [noise.slice(0, rows * columns), noise.slice(rows * columns)];

  // +fs 1: fragments of at most 1 kB, of which a frame of this noise needs several.
  itWithDcmtk.each([
    ['with an offset table', ['+e1', '+fs', '1', '+ot']],
    ['without one, by the end of each stream', ['+e1', '+fs', '1', '-ot']],
  ])('finds frames that dcmtk put in pieces, %s', async (_, options) => {
    expectDcmtk();
    const native = dicomFile(filmElements({ rows, columns, samples: noise, extra: [frames('2')] }));
    const coded = throughDcmtk('dcmcjpeg', options, native);
    expect(storedValues(await openFilm(coded, 0))).toEqual(halves[0]);
    expect(storedValues(await openFilm(coded, 1))).toEqual(halves[1]);
  });

  it('reads deflated frames (PS3.5 8.2.16), in pieces, by the offset table', async () => {
    const streams = halves.map((half) => deflateRawSync(Uint16Array.from(half)));
    const [first, second] = streams as [Buffer, Buffer];
    const cut = 2 * Math.floor(first.length / 4);
    const fragments = [first.subarray(0, cut), first.subarray(cut), second];
    // PS3.5 A.4: offsets count from the first fragment's item tag; an item is its 8-byte head and even bytes.
    const even = (length: number) => length + (length % 2);
    const offsets = [0, 16 + cut + even(first.length - cut)];
    const pixelData: Element = { tag: '7fe0,0010', vr: 'OB', value: { fragments, offsets } };
    const file = dicomFile(
      filmElements({ rows, columns, pixelData, extra: [frames('2')] }),
      '1.2.840.10008.1.2.8.1',
    );
    expect(storedValues(await openFilm(file, 0))).toEqual(halves[0]);
    expect(storedValues(await openFilm(file, 1))).toEqual(halves[1]);
  });

  // PS3.5 A.4: one offset for each frame, that of the item its first fragment lies in.
  it.each([
    ['names a place where none begins', [0, 11]],
    ['names fewer places than pictures', [0]],
  ])('refuses pieces whose table %s', async (_, offsets) => {
    const fragments = [1, 2, 3].map((byte) => Uint8Array.of(byte, byte));
    const pixelData: Element = { tag: '7fe0,0010', vr: 'OB', value: { fragments, offsets } };
    const file = dicomFile(filmElements({ pixelData, extra: [frames('2')] }), SYNTAX.rle);
    const refused = { kind: 'damaged', detail: expect.stringMatching(/table of its pictures does not fit/) };
    for (const frame of [0, 1]) {
      expect(await readFilm(file, nodeFilmTools, frame)).toMatchObject({ ok: false, error: refused });
    }
  });

  it('refuses pieces that nothing tells apart', async () => {
    const fragments = [1, 2, 3].map((byte) => Uint8Array.of(byte, byte));
    const pixelData = inFragments(...fragments);
    const file = dicomFile(filmElements({ pixelData, extra: [frames('2')] }), SYNTAX.rle);
    expect(await refusalOf(file)).toMatchObject({
      kind: 'damaged',
      detail: expect.stringMatching(/no table says where each begins/),
    });
  });
});
