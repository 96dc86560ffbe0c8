import type { FoundActions, FoundFilm } from '../../ui/opening/found.ts';
import { type Shell, say } from '../shell.ts';
import { decodeSentence } from './decoder.ts';
import { addAll, bytesOf, isInCase } from './find-films.ts';

/** What the list can ask for. */
export function foundActions(shell: Shell): FoundActions {
  const { found } = shell;
  const change = (which: (film: FoundFilm) => boolean, patch: Partial<FoundFilm>) =>
    found.show((before) => ({
      ...before,
      films: before.films.map((film) => (which(film) ? { ...film, ...patch } : film)),
    }));
  return {
    choose: (id, on) => change((film) => film.id === id && !film.inCase, { chosen: on }),
    chooseAll: (on) => change((film) => !film.inCase, { chosen: on }),
    setFrame: (id, frame) => void setFrame(shell, id, frame),
    add: async () => {
      const chosen = found.store.getState().found?.films.filter((film) => film.chosen) ?? [];
      // The list stays until the films are on the plate: closing it would drop what is needed to add them.
      found.show((before) => ({ ...before, adding: 0 }));
      const { search } = found;
      await addAll(shell, chosen);
      found.end(search);
    },
    close: () => found.close(),
  };
}

/** Shows another picture of a file in the list, and takes that one when it is added. */
async function setFrame(shell: Shell, id: string, frame: number): Promise<void> {
  const { found } = shell;
  const { search } = found;
  const candidate = found.candidates.get(id);
  if (candidate === undefined) return;
  const read = await bytesOf(candidate);
  if ('reason' in read) {
    say(shell, read.reason);
    return;
  }
  const decoded = await shell.decoder.decode(read.bytes, { frame, part: null });
  if (!decoded.ok) {
    say(shell, decodeSentence(decoded.error, candidate.name));
    return;
  }
  const thumbnail = await found.pictureFor(search, decoded.value);
  if (thumbnail === null) return;
  found.candidates.set(id, { ...candidate, film: candidate.film === null ? null : decoded.value });
  found.show((before) => ({
    ...before,
    films: before.films.map((film) => {
      if (film.id !== id) return film;
      found.drop(film.thumbnail);
      return { ...film, frame, thumbnail, inCase: isInCase(shell, candidate.sha256, frame) };
    }),
  }));
}
