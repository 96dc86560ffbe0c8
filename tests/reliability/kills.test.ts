import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sameStructure } from '../../src/case/equal.ts';
import type { CaseState } from '../../src/case/history.ts';
import { seededRandom } from '../../src/phantom/random.ts';
import { ScriptedStates } from './script.ts';
import { SEED, Stand, serveHarness, sha256Of } from './stand.ts';

const KILLS = 200;
/** One in this many takes the whole browser instead of the page. */
const BROWSER_KILL_EVERY = 24;
/** Longest work before a kill: several writes, and now and then a whole checkpoint or a film. */
const LONGEST_WORK_MS = 70;
/** Reading every film back takes longer than all else. */
const FILMS_EVERY = 5;
/** A case of its own every so many kills, so that both short and long histories are met. */
const KILLS_PER_CASE = 25;

/** Two minutes where a dozen other processes want the same two cores; the limit is for slower machines still. */
const TIME_LIMIT_MS = 400_000;

let server: Awaited<ReturnType<typeof serveHarness>>;
let stand: Stand;

beforeAll(async () => {
  server = await serveHarness();
});
afterAll(() => server.close());

/** The step after which the case was as it is now; null when it never was. */
function stepOf(states: ScriptedStates, found: CaseState, from: number): number | null {
  // What is written and not acknowledged is at most what was in hand.
  for (let step = from; step <= from + 60; step += 1) {
    if (sameStructure(states.after(step), found)) return step;
  }
  return null;
}

describe('the page, killed in the middle of its work', () => {
  it(
    `keeps every acknowledged step over ${KILLS} kills`,
    async () => {
      const random = seededRandom(SEED, 'kills');
      const tally = { acknowledged: 0, further: 0, films: 0, browserKills: 0 };
      for (let part = 0; part * KILLS_PER_CASE < KILLS; part += 1) {
        const seed = SEED + part;
        const states = new ScriptedStates(seed, sha256Of);
        stand = new Stand(server.url);
        try {
          await stand.start();
          let known = 0;
          for (let kill = 0; kill < KILLS_PER_CASE; kill += 1) {
            const where = `seed ${SEED}, case ${part}, kill ${kill}`;
            const { page, acknowledged } = await stand.open();
            const opened = await page.evaluate((given) => window.harness.openAsText(given), seed);
            const { state, said } = JSON.parse(opened) as Awaited<ReturnType<Window['harness']['open']>>;
            expect(said, where).toEqual([]);
            const step = stepOf(states, state, known);
            expect(step, `${where}: the case is not what it was after step ${known} or later`).not.toBeNull();
            tally.further += step! - known;
            if (kill % FILMS_EVERY === 0 || kill === KILLS_PER_CASE - 1) {
              const films = await page.evaluate(() => window.harness.filmsFound());
              expect(films.found, `${where}: films`).toBe(films.named);
              tally.films += films.found;
            }
            void page
              .evaluate(([given, from]) => window.harness.run(given, from, from + 50), [seed, step!] as const)
              .catch(() => undefined);
            await page.waitForTimeout(random() * LONGEST_WORK_MS);
            if (kill % BROWSER_KILL_EVERY === BROWSER_KILL_EVERY - 1) {
              await stand.killBrowser();
              await stand.start();
              tally.browserKills += 1;
            } else {
              await stand.killPage(page);
            }
            known = Math.max(step!, ...acknowledged);
            tally.acknowledged += known - step!;
          }
        } finally {
          await stand.stop();
        }
      }
      console.info(
        `${KILLS} kills (${tally.browserKills} of the whole browser), seed ${SEED}: ${tally.acknowledged} acknowledged steps, none lost; ${tally.further} more were found kept; films read back ${tally.films} times, none damaged.`,
      );
      // A harness in which nothing is done before the kill would find nothing.
      expect(tally.acknowledged).toBeGreaterThan(KILLS);
      expect(tally.further).toBeGreaterThan(0);
    },
    TIME_LIMIT_MS,
  );
});
