import type { Result } from '../../geometry/result.ts';
import type { LimitSet } from '../../tolerance/limit-set.ts';

/** What the Limits place can ask for. The app performs it. */
export interface LimitActions {
  /** A local protocol that begins as a copy; its id. */
  copy(set: LimitSet): string;
  /** Keeps an edited local protocol; else the sentence that says why it was refused. */
  save(edited: Result<LimitSet, { readonly kind: string; readonly message: string }>): string | null;
  remove(id: string): void;
  exportSet(set: LimitSet): void;
  /** Takes over a limit set's file, or says which row is wrong and why; then nothing was changed. */
  importFile(file: File): Promise<{ readonly ok: boolean; readonly message: string }>;
}
