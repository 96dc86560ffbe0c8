/** What a bench file prints: one line of JSON for each thing measured. */
export interface Line {
  readonly name: string;
  /** In milliseconds of the processor, or in the unit that the name ends with in brackets. */
  readonly value: number;
  /** What it is compared with, measured in the same run and in the same unit, or a limit. */
  readonly baseline: number;
  readonly ratio: number;
  /** What the baseline is. */
  readonly against: string;
  /** The greatest ratio aimed at; absent where there is no aim. */
  readonly goal?: number;
}

const rounded = (value: number) => Number(value.toPrecision(3));

export function tell({ name, value, baseline, against, goal }: Omit<Line, 'ratio'>): void {
  const line: Line = {
    name,
    value: rounded(value),
    baseline: rounded(baseline),
    ratio: rounded(value / baseline),
    against,
    ...(goal === undefined ? {} : { goal }),
  };
  console.log(JSON.stringify(line));
}

type Pass = () => unknown;

interface Race {
  readonly against: string;
  readonly baseline: Pass;
  readonly runs: Readonly<Record<string, Pass | { readonly pass: Pass; readonly goal: number }>>;
  /** How often each is run, after one pass that is not counted. */
  readonly rounds?: number;
}

/** Of the processor, all threads together: a busy machine's clock says little of how much there is to do. */
async function timed(pass: Pass): Promise<number> {
  const before = process.cpuUsage();
  const elsewhere = await pass();
  const { user, system } = process.cpuUsage(before);
  return elsewhere instanceof SpentElsewhere ? elsewhere.milliseconds : (user + system) / 1000;
}

/** What a pass gives whose work is done in another process. */
export class SpentElsewhere {
  readonly milliseconds: number;
  constructor(milliseconds: number) {
    this.milliseconds = milliseconds;
  }
}

/**
 * Runs everything in turn, round by round, so that all of it meets the same load of the machine, and tells the fastest
 * pass of each against the fastest of the baseline: that is the pass least disturbed by others.
 */
export async function race({ against, baseline, runs, rounds = 7 }: Race): Promise<void> {
  const entries = Object.entries(runs).map(([name, run]) =>
    typeof run === 'function' ? { name, pass: run } : { name, ...run },
  );
  const fastest = new Map<string, number>();
  let fastestBaseline = Number.POSITIVE_INFINITY;
  for (let round = 0; round <= rounds; round += 1) {
    const ofBaseline = await timed(baseline);
    if (round > 0) fastestBaseline = Math.min(fastestBaseline, ofBaseline);
    for (const { name, pass } of entries) {
      const milliseconds = await timed(pass);
      if (round > 0) fastest.set(name, Math.min(fastest.get(name) ?? milliseconds, milliseconds));
    }
  }
  for (const { name, ...rest } of entries) {
    const goal = 'goal' in rest ? { goal: rest.goal } : {};
    tell({ name, value: fastest.get(name)!, baseline: fastestBaseline, against, ...goal });
  }
}
