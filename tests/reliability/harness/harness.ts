import { createStore } from 'zustand/vanilla';
import { joinOtherTab } from '../../../src/app/cases/join.ts';
import type { Shell } from '../../../src/app/shell.ts';
import { perform, say } from '../../../src/app/shell.ts';
import { type AppState, initialState } from '../../../src/app/state.ts';
import { StorageKeeper } from '../../../src/app/storage-keeper.ts';
import { change } from '../../../src/case/apply.ts';
import { caseId, recordId } from '../../../src/case/document.ts';
import type { CaseState } from '../../../src/case/history.ts';
import { seededRandom } from '../../../src/phantom/random.ts';
import { sha256Of } from '../../../src/workers/sha256.ts';
import { makeVersion1, makeVersion2WithCase } from '../../storage/old-databases.ts';
import { AT, actionOf, filmBytesOf, filmRecord, markRecord, startOf } from '../script.ts';

/*
 * The app without its screen: the same state, the same commands, the same keeping. The runner calls what stands in
 * `window.harness`; acknowledged steps are said on the console, since that reaches the runner even if the page is
 * killed in the next moment.
 */

const store = createStore<AppState>(() => initialState(caseId('none'), 'paper'));
const said: string[] = [];
let joins: Promise<void> = Promise.resolve();
let joining = false;

const shell: Shell = {
  store,
  now: () => AT,
  newId: () => crypto.randomUUID(),
  decoder: { decode: () => Promise.reject(new Error('no film is decoded here')) } as never,
  found: {} as never,
  keeper: new StorageKeeper(
    store,
    {
      say: (text) => {
        said.push(text);
        say(shell, text);
      },
      changedElsewhere: (text) => {
        said.push(text);
        if (joining) joins = joins.then(() => joinOtherTab(shell));
      },
    },
    () => AT,
  ),
};

const settled = (): Promise<AppState['saved']['kind']> =>
  new Promise((resolve) => {
    const look = () => {
      const { kind } = store.getState().saved;
      if (kind === 'saving') return;
      stop();
      resolve(kind);
    };
    const stop = store.subscribe(look);
    look();
  });

/** Opens what is kept, or begins the scripted case; answers what is on screen then. */
async function open(seed: number): Promise<{ state: CaseState; said: readonly string[]; fresh: boolean }> {
  const last = await shell.keeper.last();
  const whole = last ?? { state: startOf(seed), unknownFields: {} };
  if (last === null) await shell.keeper.begin(whole);
  store.setState({ caseState: whole.state, unknownFields: whole.unknownFields });
  return { state: whole.state, said: [...said], fresh: last === null };
}

/** Does steps one after another; now and then several before the first is acknowledged, as fast hands do. */
async function run(seed: number, from: number, to: number): Promise<AppState['saved']['kind']> {
  for (let step = from + 1; step <= to; step += 1) {
    const bytes = filmBytesOf(seed, step);
    let sha256: string | null = null;
    if (bytes !== null) {
      sha256 = await sha256Of(bytes);
      await shell.keeper.keepFilm(sha256, bytes.buffer);
    }
    perform(shell, actionOf(seed, step, store.getState().caseState, sha256));
    if (step % 4 === 3) continue;
    if ((await settled()) === 'saved') console.debug(`acknowledged ${step}`);
  }
  return settled();
}

/** Which of the films that the kept case names can be read, and are what they were. */
async function filmsFound(): Promise<{ named: number; found: number }> {
  const films = Object.values(store.getState().caseState.document.records).filter(
    (record) => record.kind === 'film',
  );
  let found = 0;
  for (const { sha256 } of films) {
    const bytes = await shell.keeper.filmBytes(sha256);
    if (bytes !== null && (await sha256Of(bytes)) === sha256) found += 1;
  }
  return { named: films.length, found };
}

type Failing = 'quota' | 'abort';

/** From now on a share of all writes to the database fails, as on a full disk or when the browser gives up. */
function failWrites(kind: Failing, share: number, seed: number): void {
  const random = seededRandom(seed, kind);
  for (const method of ['add', 'put'] as const) {
    const real = IDBObjectStore.prototype[method];
    IDBObjectStore.prototype[method] = function (this: IDBObjectStore, ...given: [unknown, IDBValidKey?]) {
      if (random() >= share) return real.apply(this, given);
      if (kind === 'quota') throw new DOMException('no room', 'QuotaExceededError');
      const request = real.apply(this, given);
      this.transaction.abort();
      return request;
    };
    restore.push(() => {
      IDBObjectStore.prototype[method] = real;
    });
  }
}
const restore: (() => void)[] = [];

/** One tab of two: each adds marks of its own, and puts both together when the other was faster. */
async function addMarks(tab: string, from: number, count: number): Promise<readonly string[]> {
  joining = true;
  const acknowledged: string[] = [];
  for (let number = from; number < from + count; number += 1) {
    const { document } = store.getState().caseState;
    const mark = markRecord(recordId(`${tab}-${number}`), recordId('film-shared'), seededRandom(number, tab));
    perform(shell, { kind: 'do', transaction: change(document, 'place a mark', AT, mark) });
    const kind = await settled();
    await joins;
    if (kind === 'saved' || (await settled()) === 'saved') acknowledged.push(mark.id);
  }
  return acknowledged;
}

async function beginShared(): Promise<void> {
  const state = startOf(1);
  await shell.keeper.begin({ state, unknownFields: {} });
  store.setState({ caseState: state });
  perform(shell, {
    kind: 'do',
    transaction: change(state.document, 'open a film', AT, filmRecord('film-shared', '0'.repeat(64))),
  });
  await settled();
}

const harness = {
  open,
  /** As text, which reaches the runner many times faster than an object of this size. */
  openAsText: async (seed: number) => JSON.stringify(await open(seed)),
  run,
  filmsFound,
  failWrites,
  healWrites: () => {
    for (const heal of restore.splice(0)) heal();
  },
  addMarks,
  beginShared,
  makeVersion1,
  makeVersion2WithCase,
  keepCase: (state: CaseState) => shell.keeper.put({ state, unknownFields: {} }),
  list: () => shell.keeper.list(),
  openCase: (id: string) => shell.keeper.open(id),
  join: async () => {
    await joins;
    await joinOtherTab(shell);
    await settled();
  },
  state: () => store.getState().caseState,
  said: () => [...said],
};

export type Harness = typeof harness;

declare global {
  interface Window {
    harness: Harness;
  }
}
window.harness = harness;
