import { lazy, Suspense } from 'react';
import { useStore } from 'zustand';
import type { Shell } from '../shell.ts';

const FoundList = lazy(() => import('./FoundList.tsx'));

/** The list of films that were found, while there is one. */
export function FilmsFound({ shell }: { shell: Shell }) {
  const found = useStore(shell.found.store, (state) => state.found);
  return found === null ? null : (
    <Suspense fallback={null}>
      <FoundList shell={shell} found={found} />
    </Suspense>
  );
}
