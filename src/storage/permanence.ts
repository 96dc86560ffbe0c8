/**
 * Whether the browser promises to keep what is here. Without the promise it may remove everything at once when
 * the disk runs full, and some browsers do after a week without a visit; a file exported with its films is the only safe copy then.
 */
export type Permanence = 'promised' | 'not-promised' | 'not-offered';

/** Whether it has promised so far; asks nobody. */
export const permanence = (): Promise<Permanence> => answered(() => navigator.storage.persisted());

/** Asks for the promise. Browsers decide by themselves or ask the person, so this comes after the first saved case. */
export const askForPermanence = (): Promise<Permanence> => answered(() => navigator.storage.persist());

async function answered(ask: () => Promise<boolean>): Promise<Permanence> {
  try {
    return (await ask()) ? 'promised' : 'not-promised';
  } catch {
    // Outside a secure context there is no `navigator.storage` at all.
    return 'not-offered';
  }
}

/**
 * Bytes that this origin keeps, as the browser estimates them; null where it does not say. Browsers do not tell
 * truly how much more there is room for: Chromium always adds 10 GB to what is used.
 */
export async function roomUsed(): Promise<number | null> {
  try {
    return (await navigator.storage.estimate()).usage ?? null;
  } catch {
    // Outside a secure context there is no `navigator.storage`; the estimate is a help, never needed.
    return null;
  }
}

/** The part of `localStorage` that is needed here. */
export interface Notepad {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}

const EXPECTED_KEY = 'raybend-cases-kept';

/** Notes how many cases are kept, outside the database, so that their loss can be noticed. */
export function noteCaseCount(notepad: Notepad, count: number): void {
  try {
    notepad.setItem(EXPECTED_KEY, String(count));
  } catch {
    // The note is a help: a notepad that is full or switched off must not stop a case from being kept.
  }
}

/**
 * How many cases were here at the last visit and are gone: the browser, or somebody, has cleared the database.
 * When everything of this origin was cleared the note is gone too, and this cannot tell.
 */
export function casesGone(notepad: Notepad, found: number): number {
  try {
    const expected = Number(notepad.getItem(EXPECTED_KEY) ?? 0);
    return Number.isInteger(expected) ? Math.max(0, expected - found) : 0;
  } catch {
    return 0;
  }
}

export const casesGoneSentence = (gone: number): string =>
  `${gone === 1 ? 'A case that was' : `${gone} cases that were`} kept on this computer ${gone === 1 ? 'is' : 'are'} gone: the browser or somebody cleared what it keeps. Open ${gone === 1 ? 'it' : 'them'} from case files if you have any.`;
