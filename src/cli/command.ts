/** A subcommand: its arguments in, the exit code out. It speaks for itself on standard output and error. */
export interface Command {
  readonly usage: string;
  /** What it does, as one sentence for `help`. */
  readonly about: string;
  readonly run: (args: readonly string[]) => Promise<number>;
}

/** What the process ends with, so that a script can tell the cases apart. */
export const EXIT = {
  done: 0,
  /** A file was read, and its content was refused. */
  refused: 1,
  /** The command was called in a way it does not know. */
  usage: 2,
  /** A file could not be read at all. */
  unreadable: 3,
} as const;

/** Says a failure on standard error, its kind first so that a script can go by it. */
export const complain = (kind: string, sentence: string): void => console.error(`${kind}: ${sentence}`);
