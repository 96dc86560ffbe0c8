import { lazy, type ReactNode, Suspense, useCallback, useState } from 'react';
import { type LeavingKind, OpenLeavingContext } from '../../ui/leaving/leaving.ts';
import type { Shell } from '../shell.ts';

/** Records are made seldom, and what makes them is large: it is loaded when the sheet opens. */
const LeavingPanel = lazy(() => import('./LeavingPanel.tsx'));

/** Opens the sheet for whoever asks for it inside. */
export function LeavingHost({ shell, children }: { readonly shell: Shell; readonly children: ReactNode }) {
  const [kind, setKind] = useState<LeavingKind | null>(null);
  const open = useCallback((next: LeavingKind) => setKind(next), []);
  return (
    <OpenLeavingContext.Provider value={open}>
      {children}
      {kind !== null && (
        <Suspense fallback={null}>
          <LeavingPanel shell={shell} start={kind} onClose={() => setKind(null)} />
        </Suspense>
      )}
    </OpenLeavingContext.Provider>
  );
}
