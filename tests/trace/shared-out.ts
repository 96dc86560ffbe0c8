import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Outcome, Tried } from './outcomes.ts';

/** The same as `outcomesOf`, its films shared out among processes of their own. */
export async function outcomesFrom(tried: Tried, processes: number): Promise<Outcome[]> {
  const each = Math.ceil(tried.films / processes);
  const shares = Array.from({ length: processes }, (_, k) => ({
    ...tried,
    from: tried.from + k * each,
    films: Math.min(each, tried.films - k * each),
  })).filter(({ films }) => films > 0);
  return (await Promise.all(shares.map(outcomesOfShare))).flat();
}

const outcomesOfShare = (share: Tried): Promise<Outcome[]> =>
  new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL('./share.ts', import.meta.url)), {
      execArgv: process.execArgv,
      serialization: 'advanced',
    });
    child.once('message', (outcomes) => {
      resolve(outcomes as Outcome[]);
      child.disconnect();
    });
    child.once('error', reject);
    child.once('exit', (code) => reject(new Error(`A process that traced films ended with ${code}.`)));
    child.send(share);
  });
