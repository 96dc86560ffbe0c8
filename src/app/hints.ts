import { markedFilms } from '../case/film-marks.ts';
import { examinationOf } from '../case/fixed-records.ts';
import { HINTS, type HintId, hintDue } from '../ui/hints/hints.ts';
import { currentAssessment } from './assessment.ts';
import { notepad } from './notepad.ts';
import type { AppState } from './state.ts';

const KEY = 'raybend-hints-closed';

/** Hints closed on this computer. */
export function closedHints(): ReadonlySet<HintId> {
  const kept = (notepad.getItem(KEY) ?? '').split(' ');
  return new Set(HINTS.map(({ id }) => id).filter((id) => kept.includes(id)));
}

export function keepClosedHints(closed: ReadonlySet<HintId>): void {
  notepad.setItem(KEY, [...closed].join(' '));
}

/** The hint for what is on screen; null unless it is a case of invented films alone, as the sample is. */
export function hintFor(state: AppState): HintId | null {
  const { document } = state.caseState;
  const films = markedFilms(document);
  if (films.length === 0 || films.some(({ film }) => !film.invented)) return null;
  const marked = films.some(({ marks }) => Object.keys(marks).length > 0);
  const measured = currentAssessment(state).readings.some(
    ({ quantity, state: known }) => quantity === 'angulation' && known === 'known',
  );
  return hintDue(
    {
      begun: marked || state.task !== null || state.trace !== null,
      measured,
      examined: Object.keys(examinationOf(document).answers).length > 0,
    },
    state.closedHints,
  );
}
