import type { DBSchema, IDBPDatabase } from 'idb';

/** What lies in the stores of the database. Numbers and names here are part of what is kept: see `upgrades.ts`. */

/** A case as of its last checkpoint. */
export interface CaseRow {
  readonly id: string;
  /** The content of a case file without films; read like one, so that one set of migrations serves both. */
  readonly file: unknown;
  /** The last write that is in `file`: an action, or the case kept whole. */
  readonly sequence: number;
}

/** One action on a case since its checkpoint. */
export interface ActionRow {
  readonly caseId: string;
  /** Counted together with the times the case was kept whole, from 1 over its whole life, without a gap. */
  readonly sequence: number;
  readonly action: unknown;
}

/** What a list of cases shows, without reading the cases. */
export interface SummaryRow {
  readonly id: string;
  readonly label: string;
  /** ISO 8601, of the last action. */
  readonly changedAt: string;
  readonly sequence: number;
  /** Of every film that the case or its history names. */
  readonly filmHashes: readonly string[];
}

interface FilmRow {
  readonly sha256: string;
  readonly bytes: ArrayBuffer;
}

/** A local protocol. */
export interface LimitSetRow {
  readonly id: string;
  /** The content of a limit set's file; checked like one when it is read. */
  readonly file: unknown;
}

export interface Schema extends DBSchema {
  cases: { key: string; value: CaseRow };
  summaries: { key: string; value: SummaryRow };
  transactions: { key: [string, number]; value: ActionRow };
  films: { key: string; value: FilmRow };
  limitSets: { key: string; value: LimitSetRow };
}

export type Database = IDBPDatabase<Schema>;
