import { type Attempt, readAttempts, writeAttempts } from '../../classroom/attempts.ts';
import { type FilmSet, readFilmSet, writeFilmSet } from '../../classroom/film-set.ts';
import { readStudy, type Study, writeStudy } from '../../classroom/study.ts';
import { failure, type Result, reasonOf, success } from '../../geometry/result.ts';
import { notepad } from '../notepad.ts';

/** What the classroom keeps in this browser, each as the text of its own file. */
const KEYS = {
  attempts: 'raybend-classroom-attempts',
  set: 'raybend-classroom-set',
  study: 'raybend-classroom-study',
} as const;

export interface NotKept {
  readonly kind: 'not-kept';
  readonly why: string;
}

/** Says that something was not kept, and what to do about it. */
export const notKeptSentence = ({ why }: NotKept, what: string): string =>
  `${what} could not be kept in this browser (${why}). Save it as a file now; freeing room in the browser's settings helps next time.`;

function keep(key: keyof typeof KEYS, text: string): Result<void, NotKept> {
  try {
    localStorage.setItem(KEYS[key], text);
    return success(undefined);
  } catch (thrown) {
    return failure({ kind: 'not-kept', why: reasonOf(thrown) });
  }
}

/** Null where nothing is kept, or what is kept cannot be read any more. */
function kept<Value>(
  key: keyof typeof KEYS,
  read: (text: string) => Result<Value, { readonly kind: string }>,
): Value | null {
  const text = notepad.getItem(KEYS[key]);
  if (text === null) return null;
  const found = read(text);
  return found.ok ? found.value : null;
}

export const keptAttempts = (): readonly Attempt[] => kept('attempts', readAttempts) ?? [];
export const keptSet = (): FilmSet | null => kept('set', readFilmSet);
export const keptStudy = (): Study | null => kept('study', readStudy);

/** Adds to what is kept now, which another tab may have added to since. */
export const keepAttempt = (attempt: Attempt): Result<void, NotKept> =>
  keep('attempts', writeAttempts([...keptAttempts(), attempt]));
export const keepAttempts = (attempts: readonly Attempt[]): Result<void, NotKept> =>
  keep('attempts', writeAttempts(attempts));
export const keepSet = (set: FilmSet): Result<void, NotKept> => keep('set', writeFilmSet(set));
export const keepStudy = (study: Study | null): Result<void, NotKept> => {
  if (study !== null) return keep('study', writeStudy(study));
  notepad.removeItem(KEYS.study);
  return success(undefined);
};
