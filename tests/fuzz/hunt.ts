import { type ChildProcess, fork } from 'node:child_process';
import { constants, setPriority } from 'node:os';
import type { Order, Report } from './child.ts';

export const MOST_MILLISECONDS = 2000;
/** A film at the limit of 100 million pixels is 200 MB, its file as much, a decoder's memory more than both. */
export const MOST_MEGABYTES = 1500;
/** By the clock; a machine with other work gives a process a fraction of its time. */
const CLOCK_MILLISECONDS = 20 * MOST_MILLISECONDS;

export interface Hunt {
  readonly files: number;
  /** How often each verdict was given. */
  readonly verdicts: Readonly<Record<string, number>>;
  readonly slowest: { readonly number: number; readonly name: string; readonly milliseconds: number };
  readonly megabytes: number;
  /** What went wrong, with the number that makes the file again. */
  readonly failures: readonly string[];
}

interface HuntOptions {
  readonly seed: number;
  readonly from: number;
  readonly count: number;
  /** Ends between two files once this time is over. */
  readonly milliseconds: number;
  /** Told of each failure as it is found. */
  readonly tell?: (failure: string) => void;
}

type Said = Report | { readonly kind: 'gone'; readonly why: string };

/** One report of the child, or why there will be none. */
function next(child: ChildProcess): Promise<Said> {
  return new Promise((resolve) => {
    const late = setTimeout(() => {
      child.kill('SIGKILL');
      finish({ kind: 'gone', why: `was not done after ${CLOCK_MILLISECONDS / 1000} s` });
    }, CLOCK_MILLISECONDS);
    const message = (report: Report) => finish(report);
    const exit = (code: number | null, signal: string | null) =>
      finish({ kind: 'gone', why: `ended the process (${signal ?? code})` });
    const finish = (said: Said) => {
      clearTimeout(late);
      child.off('message', message);
      child.off('exit', exit);
      resolve(said);
    };
    child.once('message', message);
    child.once('exit', exit);
  });
}

const CHILD = new URL('./child.ts', import.meta.url);
const ROOT = new URL('../../', import.meta.url);

async function start(): Promise<ChildProcess> {
  const child = fork(CHILD, { cwd: ROOT, execArgv: ['--import', 'tsx', '--max-old-space-size=1024'] });
  // Beside other tests: what counts is the processor's time, so it may wait.
  if (child.pid !== undefined) setPriority(child.pid, constants.priority.PRIORITY_BELOW_NORMAL);
  const said = await next(child);
  if (said.kind !== 'ready') throw new Error('The process that reads hostile files did not start.');
  return child;
}

/** Reads hostile files one after another in a process of their own, which is started anew where a file ended it. */
export async function hunt({ seed, from, count, milliseconds, tell }: HuntOptions): Promise<Hunt> {
  const begun = Date.now();
  const verdicts: Record<string, number> = {};
  const failures: string[] = [];
  let slowest: Hunt['slowest'] = { number: from, name: '', milliseconds: 0 };
  let megabytes = 0;
  let files = 0;
  let child = await start();
  for (let number = from; number < from + count && Date.now() - begun < milliseconds; number += 1) {
    const blame = (what: string) => {
      const failure = `seed ${seed}, file ${number}: ${what}`;
      failures.push(failure);
      tell?.(failure);
    };
    child.send({ seed, number } satisfies Order);
    const said = await next(child);
    files += 1;
    if (said.kind !== 'read') {
      blame(said.kind === 'gone' ? said.why : 'started twice');
      child.kill('SIGKILL');
      child = await start();
      continue;
    }
    const verdict = said.uncaught ? 'uncaught' : said.verdict;
    verdicts[verdict] = (verdicts[verdict] ?? 0) + 1;
    if (said.milliseconds > slowest.milliseconds) slowest = said;
    if (said.uncaught) blame(`${said.name}: ${said.verdict}`);
    if (said.milliseconds > MOST_MILLISECONDS) blame(`${said.name}: ${Math.round(said.milliseconds)} ms`);
    if (said.megabytes > Math.max(megabytes, MOST_MEGABYTES))
      blame(`${said.name}: ${Math.round(said.megabytes)} MB`);
    megabytes = Math.max(megabytes, said.megabytes);
  }
  child.kill();
  return { files, verdicts, slowest, megabytes, failures };
}
