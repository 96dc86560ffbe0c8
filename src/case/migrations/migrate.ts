import { failure, type Result, reasonOf, success } from '../../geometry/result.ts';

/** One step up in the format of case files. */
export interface Migration {
  /** The version it writes; it reads the one before. */
  readonly to: number;
  /** What changed, e.g. "spacing names its origin". */
  readonly name: string;
  /** Pure. May throw on a file that is not what its version says; the caller turns that into a failure. */
  readonly up: (file: Readonly<Record<string, unknown>>) => Record<string, unknown>;
}

export interface MigrationFailed {
  readonly kind: 'migration-failed';
  /** The step that failed. */
  readonly to: number;
  readonly name: string;
  readonly detail: string;
}

/**
 * Throws unless the migrations lead from version 1 to `current`, one by one, in order and without a gap.
 * Run once at start-up: a gap is a mistake of ours, not of a file.
 */
export function checkMigrations(migrations: readonly Migration[], current: number): void {
  migrations.forEach(({ to, name }, index) => {
    if (to !== index + 2) {
      throw new Error(
        `Migration "${name}" leads to version ${to}; in its place stands version ${index + 2}.`,
      );
    }
  });
  if (migrations.length + 1 !== current) {
    throw new Error(
      `The migrations lead to version ${migrations.length + 1}, but files are version ${current}.`,
    );
  }
}

/** A TypeError is the engine's word for something that is not there; it tells nobody anything. */
function whyNotUp(thrown: unknown, version: number): string {
  if (thrown instanceof TypeError) return `it is not built as files of version ${version} are`;
  return reasonOf(thrown);
}

/**
 * A file's content, brought from version `from` up to the version the migrations end at.
 *
 * Fails with `migration-failed`, naming the step, when a step cannot read the file.
 */
export function migrate(
  file: Readonly<Record<string, unknown>>,
  from: number,
  migrations: readonly Migration[],
): Result<Readonly<Record<string, unknown>>, MigrationFailed> {
  let current = file;
  for (const { to, name, up } of migrations.filter((migration) => migration.to > from)) {
    try {
      current = { ...up(current), version: to };
    } catch (thrown) {
      return failure({ kind: 'migration-failed', to, name, detail: whyNotUp(thrown, to - 1) });
    }
  }
  return success(current);
}
