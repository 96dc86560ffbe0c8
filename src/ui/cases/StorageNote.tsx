import { PushButton } from '../controls/controls.tsx';

export interface StorageNoteProps {
  /** What the browser answered when asked to keep what is here; null: not answered yet. */
  readonly promise: 'promised' | 'not-promised' | 'not-offered' | null;
  /** Bytes; null where the browser does not say. */
  readonly roomUsed: number | null;
  /** Whether what is on screen is kept. */
  readonly saved: string;
  readonly onAsk: () => void;
}

const PROMISE_WORDS = {
  promised: 'The browser has promised not to clear them by itself.',
  'not-promised':
    'The browser has not promised to keep them: it may clear everything at once when the disk runs full or after weeks without a visit. A file exported with its films is the only safe copy.',
  'not-offered':
    'This browser gives no promise to keep them here. A file exported with its films is the only safe copy.',
} as const;

/** How safe the cases lie on this computer, and what to do about it. */
export function StorageNote({ promise, roomUsed, saved, onAsk }: StorageNoteProps) {
  return (
    <section className="storage-note" aria-label="Where cases are kept">
      <h3>Kept on this computer only</h3>
      <p>Cases and films lie in this browser’s own storage and are sent nowhere. {saved}</p>
      <p>{roomWords(roomUsed)}</p>
      {promise !== null && <p data-promise={promise}>{PROMISE_WORDS[promise]}</p>}
      {promise === 'not-promised' && <PushButton onPress={onAsk}>Ask the browser again</PushButton>}
    </section>
  );
}

function roomWords(bytes: number | null): string {
  if (bytes === null) return 'This browser does not say how much room they take.';
  const megabytes = bytes / 1e6;
  return `They take ${megabytes < 10 ? megabytes.toFixed(1) : Math.round(megabytes)}\u2009MB, as the browser estimates it.`;
}
