import type { FoundActions, FoundFilm } from '../../ui/opening/found.ts';
import { type Shell, say } from '../shell.ts';
import { decodeSentence } from './decoder.ts';
import { addAll, bytesOf, isInCase } from './find-films.ts';

/** What the list can ask for. */
export function foundActions(shell: Shell): FoundActions {
  const { found } = shell;
  return {
    choose: (id, on) => found.change((film) => film.id === id && !film.inCase, { chosen: on }),
    chooseAll: (on) => found.change((film) => !film.inCase, { chosen: on }),
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

/**
 * Shows another picture of a file in the list, and takes that one when it is added: from now on, not from when it is
 * decoded, or whoever adds it at once would get the one before.
 */
async function setFrame(shell: Shell, id: string, frame: number): Promise<void> {
  const { found } = shell;
  const { search } = found;
  const listed = () => found.store.getState().found?.films.find((film) => film.id === id);
  const candidate = found.candidates.get(id);
  const before = listed();
  if (candidate === undefined || before === undefined) return;
  const isAsked = () => found.search === search && listed()?.frame === frame;
  const show = (patch: Partial<FoundFilm>) => found.change((film) => film.id === id, patch);
  found.candidates.set(id, { ...candidate, film: null });
  show({ frame, inCase: isInCase(shell, candidate.sha256, frame) });
  const giveUp = (why: string) => {
    say(shell, why);
    if (isAsked()) show({ frame: before.frame, inCase: before.inCase });
  };
  const read = await bytesOf(candidate);
  if ('reason' in read) return giveUp(read.reason);
  const decoded = await shell.decoder.decode(read.bytes, { frame, part: null });
  if (!decoded.ok) return giveUp(decodeSentence(decoded.error, candidate.name));
  const thumbnail = await found.pictureFor(search, decoded.value);
  if (thumbnail === null) return;
  if (!isAsked()) {
    found.drop(thumbnail);
    return;
  }
  if (candidate.film !== null) found.candidates.set(id, { ...candidate, film: decoded.value });
  found.drop(listed()?.thumbnail ?? '');
  show({ thumbnail });
}
