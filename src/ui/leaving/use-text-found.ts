import { useEffect, useMemo, useState } from 'react';
import type { RecordId } from '../../case/document.ts';
import type { Rectangle } from '../film-tools/part-drawing.ts';
import type { Covered, LeavingActions } from './leaving.ts';

/** Why a film was not looked through for text. */
export type NotLooked = 'no-pixels' | 'broke-off';

/**
 * Looks once through each film that is about to be shown, and hands on what is to be covered.
 *
 * @returns The films that could not be looked through: nobody waits for them, and nothing is said to be found.
 */
export function useTextFound(
  shown: readonly RecordId[],
  covered: Covered,
  onCovered: (filmId: RecordId, areas: readonly Rectangle[]) => void,
  actions: LeavingActions,
): ReadonlyMap<RecordId, NotLooked> {
  const asked = useMemo(() => new Set<RecordId>(), []);
  const [notLooked, setNotLooked] = useState<ReadonlyMap<RecordId, NotLooked>>(new Map());
  useEffect(() => {
    for (const id of shown) {
      if (covered.has(id) || asked.has(id)) continue;
      asked.add(id);
      const lacks = (why: NotLooked) => setNotLooked((before) => new Map(before).set(id, why));
      void actions.findText(id).then(
        (found) => (found.ok ? onCovered(id, found.value) : lacks(found.error.kind)),
        () => lacks('broke-off'),
      );
    }
  }, [shown, covered, onCovered, actions, asked]);
  return notLooked;
}
