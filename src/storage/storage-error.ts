import { roomUsed } from './permanence.ts';

/** Why something could not be kept or found. Numbers are bytes. */
export type StorageError =
  /** The browser offers no database here: a private window, or switched off. */
  | { readonly kind: 'not-available'; readonly detail: string }
  /** The database was written by a newer Raybend. */
  | { readonly kind: 'database-too-new'; readonly known: number }
  /** This tab's connection was closed, by a newer Raybend in another tab or by the browser. */
  | { readonly kind: 'connection-closed' }
  /** `usage`: what this origin keeps, as the browser estimates it; null where it does not say. */
  | { readonly kind: 'quota-exceeded'; readonly usage: number | null }
  | { readonly kind: 'case-not-found'; readonly caseId: string }
  /** What is kept under the id is no case, or of a version this Raybend does not read. */
  | { readonly kind: 'case-unreadable'; readonly caseId: string; readonly detail: string }
  /** Another tab has changed the case since this one read it. Nothing was written. */
  | {
      readonly kind: 'changed-elsewhere';
      readonly caseId: string;
      readonly expectedSequence: number;
      readonly foundSequence: number;
    }
  /** The bytes given, or found, are not those of the film that is named. */
  | { readonly kind: 'film-mismatch'; readonly sha256: string; readonly found: string }
  | { readonly kind: 'failed'; readonly detail: string };

/** Says to the person what could not be kept or found, and what to do next. */
export function storageErrorSentence(error: StorageError): string {
  switch (error.kind) {
    case 'not-available':
      return `This browser window keeps nothing on this computer (${error.detail}). Work goes on, but save the case to a file before you close the window.`;
    case 'database-too-new':
      return 'The cases on this computer were kept by a newer Raybend than this one. Reload the page to get the newer one.';
    case 'connection-closed':
      return 'Raybend was updated or cleared in another tab, so this tab keeps nothing any longer. Save the case to a file, then reload this tab.';
    case 'quota-exceeded':
      return `There is no room left on this computer${usageWords(error.usage)}, so the last change was not kept. Save the case to a file and remove cases or films you no longer need.`;
    case 'case-not-found':
      return `The case ${error.caseId} is not kept on this computer any longer. Open it from a case file.`;
    case 'case-unreadable':
      return `The case ${error.caseId} is kept on this computer but cannot be read (${error.detail}). Open it from a case file.`;
    case 'changed-elsewhere':
      return 'This case was changed in another tab, so the last change here was not kept yet. Put the two together, or save this state to a file.';
    case 'film-mismatch':
      return `The film ${error.sha256.slice(0, 12)}… is damaged (its content gives ${error.found.slice(0, 12)}…), so it was not used. Open the film's file again.`;
    case 'failed':
      return `The browser could not keep or read the case (${error.detail}). Save the case to a file.`;
  }
}

const MEGABYTE = 1e6;

const usageWords = (usage: number | null): string =>
  usage === null ? '' : ` (Raybend itself keeps ${Math.round(usage / MEGABYTE)} MB)`;

/** A thrown error of the browser as a value. */
export async function storageErrorFrom(thrown: unknown): Promise<StorageError> {
  const name = thrown instanceof Error || thrown instanceof DOMException ? thrown.name : '';
  const detail = thrown instanceof Error || thrown instanceof DOMException ? thrown.message : String(thrown);
  switch (name) {
    case 'QuotaExceededError':
      return { kind: 'quota-exceeded', usage: await roomUsed() };
    case 'InvalidStateError':
      return { kind: 'connection-closed' };
    case 'SecurityError':
      return { kind: 'not-available', detail: 'it is not allowed to' };
    default:
      return { kind: 'failed', detail: detail || name };
  }
}
