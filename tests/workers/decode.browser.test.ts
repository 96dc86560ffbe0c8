import * as Comlink from 'comlink';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { DecodeWorker } from '../../src/workers/decode.ts';
import { htj2kStream, jpeg2000Stream, jpegLsStream, streamValues } from '../film/codecs/streams.ts';
import { dicomFile, type Element, filmElements, SYNTAX } from '../film/dicom-file.ts';
import { COLUMNS, greyAt, greyJpeg, ROWS, withOrientation } from '../film/picture/jpegs.ts';

let worker: Worker;
let remote: Comlink.Remote<DecodeWorker>;

beforeAll(() => {
  worker = new Worker(new URL('../../src/workers/decode.ts', import.meta.url), { type: 'module' });
  remote = Comlink.wrap<DecodeWorker>(worker);
});

afterAll(() => worker.terminate());

/** The bytes in a buffer of their own, as a file gives them. */
const buffer = (bytes: Uint8Array) => bytes.slice().buffer;

async function open(bytes: Uint8Array, frame?: number) {
  const handed = buffer(bytes);
  const result = await remote.decode(Comlink.transfer(handed, [handed]), frame);
  expect(handed.byteLength, 'the bytes were handed over').toBe(0);
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  return result.value;
}

const compressed = (stream: Uint8Array, uid: string, bits = 12) => {
  const pixelData: Element = { tag: '7fe0,0010', vr: 'OB', value: { fragments: [stream] } };
  const bitsAllocated = bits > 8 ? 16 : 8;
  return dicomFile(filmElements({ rows: 12, columns: 16, bitsAllocated, bitsStored: bits, pixelData }), uid);
};

const patient = (name: string): Element[] => [
  { tag: '0010,0010', vr: 'PN', value: name },
  { tag: '0010,0020', vr: 'LO', value: '7' },
];

describe('the decode worker in a browser', () => {
  it('gives a film, plain data, with its pixels', async () => {
    const film = await open(dicomFile(filmElements({ samples: [1, 2, 3, 4, 5, 6] })));
    expect(film.levels[0]!.pixels).toEqual(Uint16Array.of(1, 2, 3, 4, 5, 6));
    expect(film.facts.format).toBe('dicom');
  });

  it('gives a part of a picture, or says that the part does not lie on it', async () => {
    const file = buffer(dicomFile(filmElements({ samples: [1, 2, 3, 4, 5, 6] })));
    // Rows 1 2 3 and 4 5 6: the two columns on the right.
    const part = { kind: 'rectangle', column: 1, row: 0, columns: 2, rows: 2 } as const;
    const taken = await remote.decode(file.slice(0), 0, part);
    expect(taken.ok && taken.value.levels[0]!.pixels).toEqual(Uint16Array.of(2, 3, 5, 6));
    expect(await remote.decode(file, 0, { ...part, column: 2 })).toEqual({
      ok: false,
      error: { kind: 'part-not-in-picture', columns: 3, rows: 2 },
    });
  });

  it.each([
    ['JPEG-LS', jpegLsStream(), '1.2.840.10008.1.2.4.80'],
    ['JPEG 2000', jpeg2000Stream(), '1.2.840.10008.1.2.4.90'],
    ['HTJ2K', htj2kStream(), SYNTAX.htj2k],
  ])('loads the codec of %s when it is needed', async (_, stream, uid) => {
    const film = await open(compressed(stream, uid));
    expect(Array.from(film.levels[0]!.pixels)).toEqual(streamValues);
  });

  it.each([
    ['JPEG in DICOM', () => compressed(greyJpeg(), SYNTAX.jpegBaseline, 8)],
    ['a JPEG picture', greyJpeg],
  ])('reads %s', async (_, bytes) => {
    const film = await open(bytes());
    expect(Array.from(film.levels[0]!.pixels)).toEqual(
      Array.from({ length: COLUMNS * ROWS }, (_, i) => greyAt(i % COLUMNS, Math.floor(i / COLUMNS))),
    );
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'turns a JPEG of orientation %i as the browser does',
    async (orientation) => {
      const bytes = withOrientation(orientation);
      const film = await open(bytes);
      const bitmap = await createImageBitmap(new Blob([bytes.slice()]), { imageOrientation: 'from-image' });
      expect([film.columns, film.rows]).toEqual([bitmap.width, bitmap.height]);
      const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
      context.drawImage(bitmap, 0, 0);
      const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
      film.levels[0]!.pixels.forEach((grey, i) => {
        expect(Math.abs(grey - data[4 * i]!)).toBeLessThanOrEqual(1);
      });
    },
  );

  it('gives a failure as a value', async () => {
    expect(await remote.decode(buffer(new TextEncoder().encode('Dear colleague,')))).toEqual({
      ok: false,
      error: { kind: 'not-a-film', looksLike: 'a text file' },
    });
  });

  it('sorts dropped files and opens archives', async () => {
    const archive = zipSync({
      'a.dcm': dicomFile(filmElements()),
      'b.jpg': greyJpeg(),
      'c.txt': new Uint8Array(9),
    });
    const { films, leftOut } = await remote.lookInside([{ name: 'films.zip', bytes: archive }]);
    expect(films.map(({ name }) => name)).toEqual(['a.dcm', 'b.jpg']);
    expect(films[1]!.bytes).toEqual(greyJpeg());
    expect(leftOut.map(({ name }) => name)).toEqual(['c.txt']);
  });

  it('gives one key for one patient, under one secret, and no name', async () => {
    const secret = new Uint8Array(32).fill(7);
    const key = (name: string, under = secret) =>
      remote.patientKey(buffer(dicomFile(filmElements({ extra: patient(name) }))), under);
    const one = await key('Invented^Ada');
    expect(one).toMatch(/^[0-9a-f]{64}$/);
    expect(await key('INVENTED^ADA')).toBe(one);
    expect(await key('Invented^Bea')).not.toBe(one);
    expect(await key('Invented^Ada', new Uint8Array(32).fill(8))).not.toBe(one);
    expect(await remote.patientKey(buffer(greyJpeg()), secret)).toBeNull();
  });
});
