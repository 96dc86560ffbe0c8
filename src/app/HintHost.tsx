import { useStore } from 'zustand';
import { Hint } from '../ui/hints/Hint.tsx';
import { HINTS, type HintId } from '../ui/hints/hints.ts';
import { hintFor, keepClosedHints } from './hints.ts';
import type { Shell } from './shell.ts';

/** The hint that is due, above the form. */
export function HintHost({ shell: { store } }: { readonly shell: Shell }) {
  const hint = useStore(store, hintFor);
  if (hint === null) return null;
  const close = (...ids: readonly HintId[]) => {
    const closedHints = new Set([...store.getState().closedHints, ...ids]);
    store.setState({ closedHints });
    keepClosedHints(closedHints);
  };
  return (
    <Hint hint={hint} onClose={() => close(hint)} onCloseAll={() => close(...HINTS.map(({ id }) => id))} />
  );
}
