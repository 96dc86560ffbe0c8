import type { CaseFile } from '../case/case-content.ts';
import type { Action, CaseState } from '../case/history.ts';
import type { Result } from '../geometry/result.ts';
import type { StorageError } from '../storage/storage-error.ts';
import type { CaseSummary } from '../storage/summaries.ts';

/** A case with what its file held besides; the two travel together, so that nothing unknown is dropped. */
export type WholeCase = Pick<CaseFile, 'state' | 'unknownFields'>;

/** Keeps cases and films on this computer. What it fails to do it shows in the state or says, never by throwing. */
export interface CaseKeeper {
  /** Keeps one action that was just done; what is on screen counts as saved once it is written. */
  keep(state: CaseState, action: Action): void;
  /** Keeps a case that is new on this computer, and what is done to it from now on. */
  begin(whole: WholeCase): Promise<void>;
  /** A kept case, for putting it on screen: what is done from now on is done to it. */
  open(id: string): Promise<WholeCase | null>;
  /** The case that was on screen last or, if it cannot be read, another one; null when there is none. */
  last(): Promise<WholeCase | null>;

  list(): Promise<readonly CaseSummary[]>;
  /** A kept case, for reading it only. */
  read(id: string): Promise<Result<WholeCase, StorageError>>;
  /** Keeps a case without putting it on screen; one of the same id that is kept already is replaced. */
  put(whole: WholeCase): Promise<boolean>;
  /** Does one thing to a kept case that is not on screen. */
  change(id: string, action: (state: CaseState) => Action): Promise<boolean>;
  remove(id: string): Promise<boolean>;

  keepFilm(sha256: string, bytes: ArrayBuffer): Promise<void>;
  /** Null when the film is not kept here. A damaged film is said and counts as not kept. */
  filmBytes(sha256: string): Promise<ArrayBuffer | null>;
  /** Bytes that are kept here in all, as the browser estimates them; null where it does not say. */
  roomUsed(): Promise<number | null>;
  /** Asks the browser to promise that it keeps what is here; the answer comes to the state. */
  askToStay(): Promise<void>;
}

/** Keeps local protocols on this computer, each as the content of its file. Says what it fails to do. */
export interface ProtocolKeeper {
  /** What is in one is for the reader to check. */
  limitSets(): Promise<readonly unknown[]>;
  /** Keeps a protocol, in place of one of the same id. */
  keepLimitSet(id: string, content: unknown): Promise<boolean>;
  removeLimitSet(id: string): Promise<boolean>;
}
