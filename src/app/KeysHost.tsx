import { lazy, Suspense, useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { notepad } from './notepad.ts';
import type { Shell } from './shell.ts';

const KeySheet = lazy(() => import('../ui/help/KeySheet.tsx'));

const KEY = 'raybend-question-key';

/** A single sign as a key can be switched off (WCAG 2.2, 2.1.4): speech input may produce it by chance. */
const keptByKey = (): boolean => notepad.getItem(KEY) !== 'off';

/** The page of keys, by its button or by "?". */
export function KeysHost({ shell: { store } }: { readonly shell: Shell }) {
  const shown = useStore(store, (state) => state.keysShown);
  const [byKey, setByKey] = useState(keptByKey);
  useEffect(() => {
    if (!byKey) return;
    const open = ({ key, ctrlKey, metaKey, altKey, target }: KeyboardEvent) => {
      if (key !== '?' || ctrlKey || metaKey || altKey) return;
      if (target instanceof HTMLElement && target.closest('input, textarea, [contenteditable], dialog'))
        return;
      store.setState({ keysShown: true });
    };
    window.addEventListener('keydown', open);
    return () => window.removeEventListener('keydown', open);
  }, [store, byKey]);
  if (!shown) return null;
  return (
    <Suspense fallback={null}>
      <KeySheet
        byKey={byKey}
        onByKey={(on) => {
          notepad.setItem(KEY, on ? 'on' : 'off');
          setByKey(on);
        }}
        onClose={() => store.setState({ keysShown: false })}
      />
    </Suspense>
  );
}
