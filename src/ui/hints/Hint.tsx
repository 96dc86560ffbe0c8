import { PushButton } from '../controls/controls.tsx';
import { HINTS, type HintId } from './hints.ts';

interface HintProps {
  readonly hint: HintId;
  readonly onClose: () => void;
  readonly onCloseAll: () => void;
}

/** One sentence or two above the form. It takes no focus, covers nothing and waits for nothing. */
export function Hint({ hint, onClose, onCloseAll }: HintProps) {
  const index = HINTS.findIndex(({ id }) => id === hint);
  return (
    <aside className="hint" aria-label="Hint">
      <p>
        <em>
          {index + 1} of {HINTS.length}.
        </em>{' '}
        {HINTS[index]?.text}
      </p>
      <div className="hint__buttons">
        <PushButton quiet onPress={onClose} label="Close this hint">
          Close
        </PushButton>
        <PushButton quiet onPress={onCloseAll}>
          No more hints
        </PushButton>
      </div>
    </aside>
  );
}
