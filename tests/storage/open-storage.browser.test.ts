import { describe, expect, it, onTestFinished } from 'vitest';
import { CaseWriter, NOT_KEPT_YET } from '../../src/storage/case-writer.ts';
import { type OpenStorage, openStorage } from '../../src/storage/open-storage.ts';
import { type Notepad, noteCaseCount } from '../../src/storage/permanence.ts';
import type { Database } from '../../src/storage/rows.ts';
import { listCases } from '../../src/storage/summaries.ts';
import { AT, caseOf, film, succeeded } from '../case/samples.ts';
import { freshName, newState } from './support.ts';

const SHA256 = 'a'.repeat(64);
const ORPHAN = 'b'.repeat(64);

function notepad(): Notepad {
  const notes = new Map<string, string>();
  return { getItem: (key) => notes.get(key) ?? null, setItem: (key, value) => notes.set(key, value) };
}

async function open(name: string, notes = notepad()): Promise<OpenStorage> {
  const opened = succeeded(
    await openStorage({
      name,
      filmFiles: null,
      notepad: notes,
      onBlocked: () => undefined,
      onClosed: () => undefined,
    }),
  );
  onTestFinished(() => opened.close());
  return opened;
}

/** Storage with one case that names one film, and one film that nothing names. */
async function filled(name: string, notes = notepad()): Promise<OpenStorage> {
  const storage = await open(name, notes);
  const document = caseOf(film('film-a', { sha256: SHA256 }));
  succeeded(
    await new CaseWriter(storage.database, NOT_KEPT_YET).save({ ...newState('case-1'), document }, AT),
  );
  succeeded(await storage.films.put(SHA256, new ArrayBuffer(1)));
  succeeded(await storage.films.put(ORPHAN, new ArrayBuffer(1)));
  return storage;
}

describe('opening what is kept', () => {
  it('sweeps films that no case names', async () => {
    const name = freshName();
    (await filled(name)).close();
    const storage = await open(name);
    expect(succeeded(await storage.films.list())).toEqual([SHA256]);
  });

  it('sweeps nothing while another tab is there', async () => {
    const name = freshName();
    const other = await filled(name);
    const storage = await open(name);
    expect(succeeded(await storage.films.list())).toEqual([SHA256, ORPHAN]);
    storage.close();
    other.close();
    expect(succeeded(await (await open(name)).films.list())).toEqual([SHA256]);
  });

  it('says how many cases are gone, once, and sweeps nothing then', async () => {
    const name = freshName();
    const notes = notepad();
    noteCaseCount(notes, 4);
    const storage = await filled(name, notes);
    expect(storage.casesGone).toBe(4);
    storage.close();
    noteCaseCount(notes, 3);
    const again = await open(name, notes);
    expect(again.casesGone).toBe(2);
    expect(succeeded(await again.films.list())).toEqual([SHA256, ORPHAN]);
    again.close();
    expect((await open(name, notes)).casesGone).toBe(0);
  });

  it.each([
    ['missing', (database: Database) => database.delete('summaries', 'case-1')],
    ['damaged', (database: Database) => database.put('summaries', { id: 'case-1' } as never)],
  ])('sweeps no film of a case whose summary is %s, and makes the summary anew', async (_, damage) => {
    const name = freshName();
    const first = await filled(name);
    const [before] = succeeded(await listCases(first.database));
    await damage(first.database);
    first.close();
    const storage = await open(name);
    expect(succeeded(await storage.films.list())).toEqual([SHA256]);
    expect(succeeded(await listCases(storage.database))).toEqual([
      { ...before, changedAt: '1970-01-01T00:00:00.000Z' },
    ]);
  });

  it('lists a case that cannot be read and has no summary, and sweeps nothing', async () => {
    const name = freshName();
    const first = await filled(name);
    await first.database.delete('summaries', 'case-1');
    await first.database.put('cases', { id: 'case-1', sequence: 1, file: 'damaged' });
    first.close();
    const storage = await open(name);
    expect(succeeded(await listCases(storage.database)).map(({ id }) => id)).toEqual(['case-1']);
    expect(succeeded(await storage.films.list())).toEqual([SHA256, ORPHAN]);
  });
});
