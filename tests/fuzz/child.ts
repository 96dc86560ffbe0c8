import { hostileFile, judge } from './judge.ts';
import { soundFiles } from './seeds.ts';

/** Reads the files whose numbers it is sent, and says of each what came of it; `hunt.ts` starts and watches it. */

/** From the watcher. */
export interface Order {
  readonly seed: number;
  readonly number: number;
}

/** To the watcher, before the first file and after each. */
export type Report =
  | { readonly kind: 'ready' }
  | {
      readonly kind: 'read';
      readonly number: number;
      readonly name: string;
      readonly verdict: string;
      /** Whether something was thrown that is no error by name. */
      readonly uncaught: boolean;
      /** Of the processor, reading alone. */
      readonly milliseconds: number;
      /** The most this process has ever held. */
      readonly megabytes: number;
    };

const seeds = await soundFiles();
const report = (said: Report) => process.send!(said);

process.on('message', async ({ seed, number }: Order) => {
  const file = hostileFile(seeds, seed, number);
  const before = process.cpuUsage();
  let verdict: string;
  let uncaught = false;
  try {
    verdict = await judge(file);
  } catch (thrown) {
    uncaught = true;
    verdict = thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown);
  }
  const { user, system } = process.cpuUsage(before);
  report({
    kind: 'read',
    number,
    name: file.name,
    verdict,
    uncaught,
    milliseconds: (user + system) / 1000,
    megabytes: process.resourceUsage().maxRSS / 1024,
  });
});

report({ kind: 'ready' });
