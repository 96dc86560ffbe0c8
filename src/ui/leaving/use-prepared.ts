import { useEffect, useState } from 'react';
import type { Covered, LeavingActions, LeavingChoice, Prepared } from './leaving.ts';

/** Typing and dragging settle before anything is made anew. */
const SETTLES_MS = 200;

/** What is ready to leave; null while it is being made. Only the newest choice counts. */
export function usePrepared(
  choice: LeavingChoice,
  covered: Covered,
  waiting: boolean,
  actions: LeavingActions,
): Prepared | null {
  const [prepared, setPrepared] = useState<Prepared | null>(null);
  useEffect(() => {
    setPrepared(null);
    if (waiting) return;
    let made: Prepared | null = null;
    let gone = false;
    const timer = setTimeout(() => {
      void actions.prepare(choice, covered).then((next) => {
        made = next;
        if (gone) release(next);
        else setPrepared(next);
      });
    }, SETTLES_MS);
    return () => {
      gone = true;
      clearTimeout(timer);
      if (made !== null) release(made);
    };
  }, [choice, covered, waiting, actions]);
  return prepared;
}

function release(prepared: Prepared): void {
  if (prepared.ready) prepared.leaving.release();
}
