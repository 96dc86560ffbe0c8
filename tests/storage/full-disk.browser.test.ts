import * as Comlink from 'comlink';
import { afterEach, beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import { cdp } from 'vitest/browser';
import { CaseWriter, NOT_KEPT_YET } from '../../src/storage/case-writer.ts';
import { loadCase } from '../../src/storage/cases.ts';
import { filmsInDatabase } from '../../src/storage/films.ts';
import { storageErrorSentence } from '../../src/storage/storage-error.ts';
import { written } from '../../src/storage/written.ts';
import type { FilmStoreWorker } from '../../src/workers/film-store.ts';
import { sha256Of } from '../../src/workers/sha256.ts';
import { AT, failed, succeeded } from '../case/samples.ts';
import { connection, freshName, named, newState } from './support.ts';

const FULL = () => new DOMException('no room', 'QuotaExceededError');

/**
 * The next write of a database fails as on a full disk. Chromium does not hold a database in a test's browser to
 * any limit (tried with the limit below, which files obey), so that the browser's error is thrown by the test.
 */
const failNextWrite = (method: 'add' | 'put') =>
  vi.spyOn(IDBObjectStore.prototype, method).mockImplementationOnce(() => {
    throw FULL();
  });

describe('a full disk, for files', () => {
  /** Takes or gives room to the whole origin, through the browser's own developer protocol. */
  const setRoom = (quotaSize?: number) =>
    cdp().send('Storage.overrideQuotaForOrigin', {
      origin: location.origin,
      ...(quotaSize === undefined ? {} : { quotaSize }),
    });
  beforeEach(() => setRoom(2_000_000));
  afterEach(() => setRoom());

  it('is said, and no half of a film is left', async () => {
    const worker = new Worker(new URL('../../src/workers/film-store.ts', import.meta.url), {
      type: 'module',
    });
    onTestFinished(() => worker.terminate());
    const films = Comlink.wrap<FilmStoreWorker>(worker);
    const bytes = new Uint8Array(30_000_000);
    const name = await sha256Of(bytes);
    expect(failed(await films.put(name, bytes.buffer)).kind).toBe('quota-exceeded');
    expect(succeeded(await films.list())).toEqual([]);
  });
});

describe('a full disk, for the database', () => {
  afterEach(() => vi.restoreAllMocks());

  it('is said with what Raybend itself keeps', async () => {
    const films = filmsInDatabase(await connection(freshName()));
    failNextWrite('put');
    const error = failed(await films.put('a'.repeat(64), new ArrayBuffer(8)));
    expect(error).toEqual({ kind: 'quota-exceeded', usage: expect.any(Number) });
    expect(storageErrorSentence(error)).toContain('no room left on this computer (Raybend itself keeps');
    expect(succeeded(await films.list())).toEqual([]);
  });

  it('costs nothing of the case once there is room again', async () => {
    const database = await connection(freshName());
    const start = newState('case-1');
    const writer = new CaseWriter(database, NOT_KEPT_YET);
    succeeded(await writer.save(start, AT));
    const one = named(start, 'one');
    failNextWrite('add');
    expect(failed(await writer.write(one.state, one.action)).kind).toBe('quota-exceeded');
    expect(succeeded(await loadCase(database, 'case-1')).state).toEqual(start);
    const two = named(one.state, 'two');
    succeeded(await writer.write(two.state, two.action));
    expect(succeeded(await loadCase(database, 'case-1')).state).toEqual(two.state);
  });

  it('is the reason given, when the requests say only that they were aborted', async () => {
    const aborted = Promise.reject(new DOMException('aborted', 'AbortError'));
    const transaction = { done: Promise.reject(FULL()), error: FULL() };
    await expect(written(transaction, [aborted])).rejects.toMatchObject({ name: 'QuotaExceededError' });
  });
});
