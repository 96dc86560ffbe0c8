import { useMemo } from 'react';
import { useStore } from 'zustand';
import { FoundFilms } from '../../ui/opening/FoundFilms.tsx';
import type { Shell } from '../shell.ts';
import { foundActions } from './find-films.ts';

/** The list of films that were found, while there is one. */
export function FilmsFound({ shell }: { shell: Shell }) {
  const found = useStore(shell.found.store, (state) => state.found);
  const actions = useMemo(() => foundActions(shell), [shell]);
  return found === null ? null : <FoundFilms found={found} actions={actions} />;
}
