import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { injuryOf } from '../../src/case/fixed-records.ts';
import { CASE_FILE_VERSION } from '../../src/case/migrations/current.ts';
import { ScriptedStates } from './script.ts';
import { SEED, Stand, serveHarness, sha256Of } from './stand.ts';

let server: Awaited<ReturnType<typeof serveHarness>>;
let stand: Stand;

beforeAll(async () => {
  server = await serveHarness();
});
afterAll(() => server.close());
beforeEach(async () => {
  stand = new Stand(server.url);
  await stand.start();
});
afterEach(() => stand.stop());

const STEPS = 120;

describe('writes that fail', () => {
  it.each(['quota', 'abort'] as const)(
    'are said (%s), and cost nothing that was acknowledged',
    async (kind) => {
      const states = new ScriptedStates(SEED, sha256Of);
      const { page, acknowledged } = await stand.open();
      await page.evaluate((seed) => window.harness.open(seed), SEED);
      await page.evaluate(([failing, seed]) => window.harness.failWrites(failing, 0.3, seed), [
        kind,
        SEED,
      ] as const);
      await page.evaluate(([seed, to]) => window.harness.run(seed, 0, to), [SEED, STEPS] as const);
      const said = await page.evaluate(() => window.harness.said());
      expect(said.join(' ')).toContain(
        kind === 'quota'
          ? 'There is no room left on this computer'
          : 'The browser could not keep or read the case',
      );
      // Killed while some writes fail: what was acknowledged last is there, and what came after it may be.
      const last = Math.max(0, ...acknowledged);
      expect(last).toBeGreaterThan(0);
      expect(acknowledged.length).toBeLessThan(STEPS * 0.7);
      await stand.killPage(page);
      const again = await stand.open();
      const kept = await again.page.evaluate((seed) => window.harness.open(seed), SEED);
      const steps = Array.from({ length: STEPS - last + 1 }, (_, i) => last + i);
      expect(steps.map((step) => states.after(step))).toContainEqual(kept.state);
    },
  );

  it('are made up for by the next one that succeeds', async () => {
    const states = new ScriptedStates(SEED, sha256Of);
    const { page } = await stand.open();
    await page.evaluate((seed) => window.harness.open(seed), SEED);
    await page.evaluate((seed) => window.harness.failWrites('quota', 1, seed), SEED);
    await page.evaluate((seed) => window.harness.run(seed, 0, 30), SEED);
    await page.evaluate(() => window.harness.healWrites());
    await page.evaluate((seed) => window.harness.run(seed, 30, 31), SEED);
    await stand.killPage(page);
    const again = await stand.open();
    const kept = await again.page.evaluate((seed) => window.harness.open(seed), SEED);
    expect(kept.state).toEqual(states.after(31));
  });
});

describe('damaged records', () => {
  /** Ways to damage what lies in the database, and what must be said when it is opened. */
  const DAMAGES = [
    ['an action that is gone', 'delete', 'transactions', /of this case could not be read/],
    ['an action that is nonsense', 'garble', 'transactions', /of this case could not be read/],
    ['a case that is nonsense', 'garble', 'cases', /cannot be read/],
    ['a summary that is gone', 'delete', 'summaries', null],
    ['a summary that is nonsense', 'garble', 'summaries', null],
  ] as const;

  it.each(DAMAGES)('%s: the part is named, and the rest opens', async (_, how, where, sentence) => {
    const states = new ScriptedStates(SEED, sha256Of);
    const other = new ScriptedStates(SEED + 1, sha256Of);
    const { page } = await stand.open();
    await page.evaluate((seed) => window.harness.open(seed), SEED);
    await page.evaluate((seed) => window.harness.run(seed, 0, 40), SEED);
    await page.evaluate((state) => window.harness.keepCase(state), other.after(20));
    const id = `case-${SEED}`;
    await page.evaluate(
      ([act, store, caseId]) =>
        new Promise<void>((resolve, reject) => {
          const opening = indexedDB.open('raybend');
          opening.onsuccess = () => {
            const transaction = opening.result.transaction(store, 'readwrite');
            const rows = transaction.objectStore(store);
            // Action 31 lies in the middle of the log: the case itself is number 1.
            const key = store === 'transactions' ? [caseId, 31] : caseId;
            if (act === 'delete') rows.delete(key);
            else if (store === 'transactions')
              rows.put({ caseId, sequence: 31, action: { kind: 'do', transaction: 3 } });
            else if (store === 'cases') rows.put({ id: caseId, sequence: 1, file: { format: 'x' } });
            else rows.put({ id: caseId, label: 5 });
            transaction.oncomplete = () => {
              opening.result.close();
              resolve();
            };
            transaction.onabort = () => reject(transaction.error);
          };
        }),
      [how, where, id] as const,
    );
    await stand.killPage(page);
    const again = await stand.open();
    const { state, said } = await again.page.evaluate((seed) => window.harness.open(seed), SEED);
    if (sentence === null) expect(said).toEqual([]);
    else expect(said.join(' ')).toMatch(sentence);
    // What is on screen is the damaged case as far as it goes, or the other one where nothing of it can be read.
    const expected =
      where === 'cases' ? other.after(20) : where === 'transactions' ? states.after(29) : states.after(40);
    expect(state).toEqual(expected);
    const listed = await again.page.evaluate(() => window.harness.list());
    expect(listed.map((row) => row.id).sort()).toEqual([id, `case-${SEED + 1}`].sort());
    const opened = await again.page.evaluate((caseId) => window.harness.openCase(caseId), `case-${SEED + 1}`);
    expect(opened?.state).toEqual(other.after(20));
  });
});

describe('two tabs on one case', () => {
  it('lose nothing that either acknowledged, whatever the order of their writes', async () => {
    const one = await stand.open();
    await one.page.evaluate(() => window.harness.beginShared());
    const two = await stand.open();
    await two.page.evaluate((seed) => window.harness.open(seed), 1);
    const added: string[] = [];
    for (let round = 0; round < 6; round += 1) {
      const both = await Promise.all([
        one.page.evaluate((from) => window.harness.addMarks('one', from, 4), round * 4),
        two.page.evaluate((from) => window.harness.addMarks('two', from, 4), round * 4),
      ]);
      added.push(...both.flat());
    }
    await one.page.evaluate(() => window.harness.join());
    await two.page.evaluate(() => window.harness.join());
    await stand.killPage(one.page);
    await stand.killPage(two.page);
    const again = await stand.open();
    const { state } = await again.page.evaluate((seed) => window.harness.open(seed), 1);
    const kept = Object.keys(state.document.records);
    expect(added.length).toBeGreaterThan(24);
    expect(added.filter((id) => !kept.includes(id))).toEqual([]);
  });
});

/** A case as version 2 wrote it; never written anew. */
const ofVersion2 = JSON.parse(readFileSync('tests/case-files/v2/ring-shaft-over-time.json', 'utf8')) as {
  readonly case: { readonly id: string; readonly records: Readonly<Record<string, unknown>> };
};

const EARLIER = [
  {
    version: 1,
    make: (page: Page, name: string) =>
      page.evaluate((database) => window.harness.makeVersion1(database), name),
    // What its log had changed, and what no file said before version 2.
    injury: { label: 'Right small finger', pattern: 'oblique', date: null },
    films: 1,
  },
  {
    version: 2,
    make: (page: Page, name: string) =>
      page.evaluate(([database, file]) => window.harness.makeVersion2WithCase(database, file), [
        name,
        ofVersion2,
      ] as const),
    injury: { label: 'Invented: ring finger over time', pattern: 'spiral', date: '2026-03-01' },
    films: Object.values(ofVersion2.case.records).filter(
      (record) => (record as { kind: string }).kind === 'film',
    ).length,
  },
] as const;

describe('what an earlier Raybend kept', () => {
  it('is tested for every version of the case file before the one of today', () => {
    expect(EARLIER.map(({ version }) => version)).toEqual(
      Array.from({ length: CASE_FILE_VERSION - 1 }, (_, index) => index + 1),
    );
  });

  it.each(EARLIER)(
    'of version $version opens, takes further work and opens again',
    async ({ make, ...was }) => {
      const { page } = await stand.open();
      await page.goto(`${server.url}#before`);
      // The app's own database is made as it was before the app of today has seen it.
      const old = await stand.open();
      await old.page.evaluate(() => {
        indexedDB.deleteDatabase('raybend');
      });
      await make(old.page, 'raybend');
      await stand.killPage(old.page);
      await stand.killPage(page);
      const today = await stand.open();
      const opened = await today.page.evaluate((seed) => window.harness.open(seed), SEED);
      expect(opened.fresh).toBe(false);
      expect(opened.said).toEqual([]);
      expect(injuryOf(opened.state.document)).toMatchObject(was.injury);
      const films = Object.values(opened.state.document.records).filter((record) => record.kind === 'film');
      expect(films).toHaveLength(was.films);
      // Until version 3 every picture was of bones.
      for (const { shows } of films) expect(shows).toBe('bones');
      await today.page.evaluate((seed) => window.harness.run(seed, 1, 12), SEED);
      const after = await today.page.evaluate(() => window.harness.state());
      await stand.killPage(today.page);
      const again = await stand.open();
      const kept = await again.page.evaluate((seed) => window.harness.open(seed), SEED);
      expect(kept.said).toEqual([]);
      expect(kept.state).toEqual(after);
    },
  );
});
