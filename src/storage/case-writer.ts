import type { Action, CaseState } from '../case/history.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import { appendAction, compactCase, type KeptCase, saveCase } from './cases.ts';
import type { Database } from './rows.ts';
import type { StorageError } from './storage-error.ts';

/** Replaying this many actions takes a few milliseconds; beyond it the log is put into the checkpoint. */
const LONGEST_LOG = 200;

/** What a writer needs to know of the case as it is kept. */
export type KeptBefore = Pick<KeptCase, 'sequence' | 'lostActions' | 'unknownFields' | 'olderFormat'>;

/** A case that is new on this computer. */
export const NOT_KEPT_YET: KeptBefore = {
  sequence: 0,
  lostActions: 0,
  unknownFields: {},
  olderFormat: false,
};

/**
 * Writes what is done to one case, in order, one write at a time.
 *
 * A write that fails leaves the log short of an action, so the next one keeps the whole case instead; nothing
 * is lost as long as any later write succeeds. After `changed-elsewhere` nothing more is written: two tabs
 * that overwrite one another in turn would lose both sides.
 *
 * A case whose log could not be read to its end is kept whole at the first write too: what is appended behind
 * a gap would not be found again. So is one that was kept by an earlier version.
 */
export class CaseWriter {
  private queue: Promise<unknown> = Promise.resolve();
  private behind: boolean;
  private refusal: StorageError | null = null;
  private logLength = 0;
  private sequence: number;
  private readonly unknownFields: KeptCase['unknownFields'];

  /** @param kept - From `loadCase`, or `NOT_KEPT_YET`. */
  constructor(
    private readonly database: Database,
    kept: KeptBefore,
  ) {
    this.sequence = kept.sequence;
    this.unknownFields = kept.unknownFields;
    this.behind = kept.sequence === 0 || kept.lostActions > 0 || kept.olderFormat;
  }

  /** Keeps one action; `state` is the case after it. The answer comes when it is on the disk. */
  write(state: CaseState, action: Action): Promise<Result<void, StorageError>> {
    const at = action.kind === 'do' ? action.transaction.at : action.at;
    return this.inTurn(() =>
      this.behind
        ? this.saveWhole(state, at)
        : this.keep(appendAction(this.database, state, action, this.sequence), 1).then((kept) =>
            kept.ok && this.logLength > LONGEST_LOG ? this.compact(state, at) : kept,
          ),
    );
  }

  /** Keeps the whole case, without an action: one that has just been made or opened from a file. */
  save(state: CaseState, at: string): Promise<Result<void, StorageError>> {
    return this.inTurn(() => this.saveWhole(state, at));
  }

  private saveWhole(state: CaseState, at: string): Promise<Result<void, StorageError>> {
    const { database, unknownFields, sequence } = this;
    return this.keep(saveCase(database, { state, unknownFields }, sequence, at), 'whole');
  }

  private async compact(state: CaseState, at: string): Promise<Result<void, StorageError>> {
    const { database, unknownFields, sequence } = this;
    const compacted = await compactCase(database, { state, unknownFields }, sequence, at);
    // Compacting is a convenience: the action itself is kept, whatever became of it.
    if (compacted.ok) this.logLength = 0;
    return success(undefined);
  }

  private async keep(
    writing: Promise<Result<number, StorageError>>,
    written: 1 | 'whole',
  ): Promise<Result<void, StorageError>> {
    const kept = await writing;
    if (!kept.ok) {
      this.behind = true;
      if (kept.error.kind === 'changed-elsewhere') this.refusal = kept.error;
      return kept;
    }
    this.behind = false;
    this.sequence = kept.value;
    this.logLength = written === 'whole' ? 0 : this.logLength + 1;
    return success(undefined);
  }

  private inTurn(work: () => Promise<Result<void, StorageError>>): Promise<Result<void, StorageError>> {
    const turn = this.queue.then(() => (this.refusal === null ? work() : failure(this.refusal)));
    this.queue = turn;
    return turn;
  }
}
