import type { FilmRecord } from '../../case/document.ts';
import { formatDay, shownInWords } from '../../case/format.ts';

const VIEW_WORD = { pa: 'PA', oblique: 'Oblique', lateral: 'Lateral' } as const;
const OPPOSITE = { left: 'right', right: 'left' } as const;

/** What the caption says of a film, as a sentence: view, side, day, where it came from. */
export function captionOf(film: FilmRecord, injuredHand: 'left' | 'right' | null): string {
  const view = shownInWords(film, VIEW_WORD);
  const side =
    injuredHand === null
      ? film.hand === 'injured'
        ? 'injured hand'
        : 'other hand'
      : film.hand === 'injured'
        ? `${injuredHand} hand`
        : `${OPPOSITE[injuredHand]} hand, for comparison`;
  const from = film.invented ? 'Invented film.' : `Opened from a ${film.format.toUpperCase()} file.`;
  return `${view}, ${side}, ${formatDay(film.day)}. ${from}`;
}
