/** A subcommand: its arguments in, the exit code out. It speaks for itself on standard output and error. */
export interface Command {
  readonly usage: string;
  readonly run: (args: readonly string[]) => Promise<number>;
}
