import type { MarkRole } from '../case/document.ts';
import { isScaleRole } from '../case/roles.ts';

/** The form of an object of known size: first what is still to be typed, or the way to place it again. */
const SCALE_FORM = ['.film-tools__scale .field__input', '.film-tools__scale .button'] as const;

/** What came of placing blind, which waits to be taken or thrown away. */
const REPEATS = '.repeats';

/** Not a check of the examination: one key more would answer it. */
const NEXT_LINE = '.line[data-next]:not(.check) .button';

/**
 * Takes the keyboard to what goes on once a mark has been placed and the form has been drawn: what the mark itself
 * asks for, or else the line that is marked as next. The form scrolls there, so anything else would put the question
 * out of sight.
 */
export function goOnAfterPlacing(role: MarkRole): void {
  requestAnimationFrame(() => target(role)?.focus());
}

function target(role: MarkRole): HTMLElement | null | undefined {
  const page = globalThis.document;
  const own: readonly string[] = isScaleRole(role) ? SCALE_FORM : [REPEATS];
  const asked = own.map((selector) => page.querySelector<HTMLElement>(selector)).find((one) => one !== null);
  return asked ?? [...page.querySelectorAll<HTMLElement>(NEXT_LINE)].at(-1);
}
