import { useEffect } from 'react';
import type { BenchActions } from '../ui/actions.ts';
import { stopPlacing } from './placing-actions.ts';
import { putAway, type Shell } from './shell.ts';
import { stopTrace } from './tracing/trace-actions.ts';

const ONTO_CASE = { hand: 'injured', day: null } as const;

/** Whether keys typed here belong to a field and not to the app. */
const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.closest('input, textarea, select, [contenteditable]') !== null;

/** Films dropped or pasted anywhere, undo and redo by the usual keys, Escape ends placing and tracing, else puts a message away. */
export function useFilesAndKeys(shell: Shell, actions: BenchActions): void {
  useEffect(() => {
    const allowDrop = (event: DragEvent) => event.preventDefault();
    const drop = (event: DragEvent) => {
      event.preventDefault();
      const { dataTransfer } = event;
      if (dataTransfer?.types.includes('Files')) actions.openFiles(dataTransfer, ONTO_CASE);
    };
    const paste = (event: ClipboardEvent) => {
      const files = [...(event.clipboardData?.files ?? [])];
      if (files.length === 0) return;
      event.preventDefault();
      actions.openFiles(files, ONTO_CASE);
    };
    const key = (event: KeyboardEvent) => {
      if (event.key === 'Escape' && !event.defaultPrevented) {
        const { task, trace } = shell.store.getState();
        stopPlacing(shell);
        stopTrace(shell);
        const after = shell.store.getState();
        if (after.task === task && after.trace === trace) putAway(shell);
      }
      if (!(event.ctrlKey || event.metaKey) || isTyping(event.target)) return;
      const letter = event.key.toLowerCase();
      if (letter === 'z' && !event.shiftKey) actions.undo();
      else if (letter === 'y' || (letter === 'z' && event.shiftKey)) actions.redo();
      else return;
      event.preventDefault();
    };
    window.addEventListener('dragover', allowDrop);
    window.addEventListener('drop', drop);
    window.addEventListener('paste', paste);
    window.addEventListener('keydown', key);
    return () => {
      window.removeEventListener('dragover', allowDrop);
      window.removeEventListener('drop', drop);
      window.removeEventListener('paste', paste);
      window.removeEventListener('keydown', key);
    };
  }, [shell, actions]);
}
