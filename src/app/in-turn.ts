import type { Shell } from './shell.ts';

const lastOf = new WeakMap<Shell['store'], Promise<unknown>>();

/**
 * Lets one case take the place of another at a time: the one that is kept and the one that is shown change in two
 * steps, and two changes that overlap would leave work on the one case written down under the other.
 *
 * A change must not wait for another one inside its own turn.
 */
export function inTurn<T>(shell: Shell, changeCase: () => Promise<T>): Promise<T> {
  const done = (lastOf.get(shell.store) ?? Promise.resolve()).then(changeCase);
  // One that fails holds none of the later ones up; whoever asked for it hears of it.
  lastOf.set(
    shell.store,
    done.catch(() => undefined),
  );
  return done;
}
