import * as Comlink from 'comlink';
import { afterEach, describe, expect, it, onTestFinished } from 'vitest';
import { type FilmStore, filmsInDatabase, filmsInEither, sweepFilms } from '../../src/storage/films.ts';
import type { FilmStoreWorker } from '../../src/workers/film-store.ts';
import { sha256Of } from '../../src/workers/sha256.ts';
import { failed, succeeded } from '../case/samples.ts';
import { connection, freshName } from './support.ts';

/** The real worker, seen as storage sees it: this assignment is also what checks that the two agree. */
function filmFiles(): FilmStore {
  const worker = new Worker(new URL('../../src/workers/film-store.ts', import.meta.url), { type: 'module' });
  onTestFinished(() => worker.terminate());
  return Comlink.wrap<FilmStoreWorker>(worker);
}

/** The real worker in a window that may not use its file system, as the WHATWG File System standard lets `getDirectory` refuse. */
async function refusedFiles(): Promise<FilmStore> {
  const address = new URL('../../src/workers/film-store.ts', import.meta.url).href;
  const code = `
    StorageManager.prototype.getDirectory = async () => {
      throw new DOMException('Storage directory access is denied.', 'SecurityError');
    };
    await import(${JSON.stringify(address)});
    postMessage('ready');
  `;
  const blob = URL.createObjectURL(new Blob([code], { type: 'text/javascript' }));
  const worker = new Worker(blob, { type: 'module' });
  onTestFinished(() => {
    worker.terminate();
    URL.revokeObjectURL(blob);
  });
  await new Promise((resolve) => worker.addEventListener('message', resolve, { once: true }));
  return Comlink.wrap<FilmStoreWorker>(worker);
}

const bytesOf = (...values: number[]): ArrayBuffer => new Uint8Array(values).buffer;
const values = (bytes: ArrayBuffer | null) => (bytes === null ? null : [...new Uint8Array(bytes)]);

// SHA-256 of the bytes 1, 2, 3 and of no bytes, from Python: hashlib.sha256(…).hexdigest()
const ONE_TWO_THREE = '039058c6f2c0cb492c533b0a4d14ef77cc0f78abccced5287d84a1a2011cfb81';
const NOTHING = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855';

const folder = async () =>
  (await navigator.storage.getDirectory()).getDirectoryHandle('films', { create: true });

afterEach(async () => {
  const root = await navigator.storage.getDirectory();
  await root.removeEntry('films', { recursive: true }).catch(() => undefined);
});

const stores: readonly [string, () => Promise<FilmStore>][] = [
  ['files', async () => filmFiles()],
  ['the database', async () => filmsInDatabase(await connection(freshName()))],
];

describe.each(stores)('films in %s', (_, make) => {
  it('come back byte by byte, and are listed and removed', async () => {
    const films = await make();
    expect(succeeded(await films.get(ONE_TWO_THREE))).toBeNull();
    succeeded(await films.put(ONE_TWO_THREE, bytesOf(1, 2, 3)));
    succeeded(await films.put(ONE_TWO_THREE, bytesOf(1, 2, 3)));
    expect(values(succeeded(await films.get(ONE_TWO_THREE)))).toEqual([1, 2, 3]);
    expect(succeeded(await films.list())).toEqual([ONE_TWO_THREE]);
    succeeded(await films.remove(ONE_TWO_THREE));
    succeeded(await films.remove(ONE_TWO_THREE));
    expect(succeeded(await films.list())).toEqual([]);
  });

  it('are swept when no case names them', async () => {
    const films = await make();
    succeeded(await films.put(ONE_TWO_THREE, bytesOf(1, 2, 3)));
    succeeded(await films.put(NOTHING, bytesOf()));
    expect(succeeded(await sweepFilms(films, new Set([ONE_TWO_THREE])))).toBe(1);
    expect(succeeded(await films.list())).toEqual([ONE_TWO_THREE]);
  });
});

describe('films in files', () => {
  it('are refused under a name that is not theirs', async () => {
    const error = failed(await filmFiles().put(NOTHING, bytesOf(1, 2, 3)));
    expect(error).toEqual({ kind: 'film-mismatch', sha256: NOTHING, found: ONE_TWO_THREE });
  });

  it('are found out when they are damaged, and written anew', async () => {
    const films = filmFiles();
    const file = await (await folder()).getFileHandle(ONE_TWO_THREE, { create: true });
    const half = await file.createWritable();
    await half.write(bytesOf(1, 2));
    await half.close();
    expect(failed(await films.get(ONE_TWO_THREE)).kind).toBe('film-mismatch');
    expect(succeeded(await films.get(ONE_TWO_THREE))).toBeNull();
    succeeded(await films.put(ONE_TWO_THREE, bytesOf(1, 2, 3)));
    expect(values(succeeded(await films.get(ONE_TWO_THREE)))).toEqual([1, 2, 3]);
  });

  it('may be large', async () => {
    const bytes = new Uint8Array(24_000_000).fill(7);
    const name = await sha256Of(bytes);
    const films = filmFiles();
    succeeded(await films.put(name, bytes.buffer));
    const back = new Uint8Array(succeeded(await films.get(name)) ?? new ArrayBuffer());
    expect(back.length).toBe(24_000_000);
    expect(back.every((value) => value === 7)).toBe(true);
  });
});

describe('films where there is no file system', () => {
  const absent: FilmStore = {
    put: async () => ({ ok: false, error: { kind: 'not-available', detail: 'none' } }),
    get: async () => ({ ok: false, error: { kind: 'not-available', detail: 'none' } }),
    remove: async () => ({ ok: false, error: { kind: 'not-available', detail: 'none' } }),
    list: async () => ({ ok: false, error: { kind: 'not-available', detail: 'none' } }),
  };

  it('go to the database', async () => {
    const films = filmsInEither(absent, filmsInDatabase(await connection(freshName())));
    succeeded(await films.put(ONE_TWO_THREE, bytesOf(1, 2, 3)));
    expect(values(succeeded(await films.get(ONE_TWO_THREE)))).toEqual([1, 2, 3]);
    expect(succeeded(await films.list())).toEqual([ONE_TWO_THREE]);
    succeeded(await films.remove(ONE_TWO_THREE));
    expect(succeeded(await films.get(ONE_TWO_THREE))).toBeNull();
  });

  it('go to the database where the browser refuses one', async () => {
    const films = filmsInEither(await refusedFiles(), filmsInDatabase(await connection(freshName())));
    succeeded(await films.put(ONE_TWO_THREE, bytesOf(1, 2, 3)));
    expect(values(succeeded(await films.get(ONE_TWO_THREE)))).toEqual([1, 2, 3]);
    expect(succeeded(await films.list())).toEqual([ONE_TWO_THREE]);
  });

  it('are still found in the database when the browser has one later', async () => {
    const inDatabase = filmsInDatabase(await connection(freshName()));
    succeeded(await filmsInEither(absent, inDatabase).put(ONE_TWO_THREE, bytesOf(1, 2, 3)));
    const films = filmsInEither(filmFiles(), inDatabase);
    expect(values(succeeded(await films.get(ONE_TWO_THREE)))).toEqual([1, 2, 3]);
    succeeded(await films.put(NOTHING, bytesOf()));
    expect(succeeded(await films.list()).toSorted()).toEqual([ONE_TWO_THREE, NOTHING].toSorted());
    succeeded(await films.remove(ONE_TWO_THREE));
    expect(succeeded(await films.get(ONE_TWO_THREE))).toBeNull();
  });
});
