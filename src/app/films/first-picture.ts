import type { Shell } from '../shell.ts';
import type { OnFirst } from './decoder.ts';

/**
 * Shows the coarse picture of a film that is being read, until it is on the plate or cannot be.
 *
 * @param of - Where it is shown; see `ShownFirst`.
 * @param read - Ends when there is no more use for a coarse picture; until then it may hand one over.
 */
export async function withFirstPicture(
  { store }: Shell,
  of: string,
  read: (onFirst: OnFirst) => Promise<void>,
): Promise<void> {
  let ended = false;
  try {
    await read((picture) => {
      if (!ended) store.setState({ firstPicture: { of, picture } });
    });
  } finally {
    ended = true;
    // Another film may be read by now, and its picture shown.
    store.setState(({ firstPicture }) => ({ firstPicture: firstPicture?.of === of ? null : firstPicture }));
  }
}
