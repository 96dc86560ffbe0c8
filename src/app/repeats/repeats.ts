import type { MarkShape } from '../../case/document.ts';
import { markedFilm } from '../../case/film-marks.ts';
import { settingsOf } from '../../case/fixed-records.ts';
import { startPlacing } from '../../case/placing.ts';
import type { ShapeConstruction } from '../../case/roles.ts';
import { pointsOf } from '../../case/shape-points.ts';
import { middleOf } from '../../geometry/axis.ts';
import { planeScale, type Spacing, toPlane } from '../../geometry/spacing.ts';
import { type PlacedLine, placingErrorFromLines } from '../../geometry/statistics/placing-repeats.ts';
import { notepad } from '../notepad.ts';
import { put, type Shell } from '../shell.ts';
import type { Repeats } from './repeats-task.ts';

/** Six placings of two stations give ten degrees of freedom, the fewest that say more than the assumption does. */
export const PLACINGS_WANTED = 6;

/** What the placings say of the person who made them. */
export type RepeatsOutcome =
  | { readonly kind: 'estimate'; readonly standardUncertaintyMm: number; readonly degreesOfFreedom: number }
  | { readonly kind: 'no-spread' };

/** The constructions whose points can be placed again without seeing where they were. */
const REPEATABLE: readonly ShapeConstruction[] = ['canal', 'cortex-pair', 'dorsal-cortex', 'free'];

/** Hides the marks of the film shown and asks for its proximal axis, the way it is drawn there. */
export function beginRepeats(shell: Shell): void {
  const { chosenFilm, caseState } = shell.store.getState();
  const film = chosenFilm === null ? null : markedFilm(caseState.document, chosenFilm);
  if (film === null) return;
  const drawn = film.marks['proximal-axis']?.shape.construction ?? 'canal';
  const construction = REPEATABLE.includes(drawn) ? drawn : 'canal';
  shell.store.setState({ repeats: { filmId: film.film.id, construction, placings: [] } });
  askAgain(shell);
}

function askAgain(shell: Shell): void {
  const { repeats } = shell.store.getState();
  if (repeats === null) return;
  const placing = startPlacing('proximal-axis', repeats.construction);
  shell.store.setState({ task: { filmId: repeats.filmId, placing, tail: [] } });
}

/** Takes a placed axis as one of the repeats; the case does not change. */
export function takePlacing(shell: Shell, repeats: Repeats, shape: MarkShape): void {
  const placings = [...repeats.placings, shape];
  shell.store.setState({ repeats: { ...repeats, placings } });
  if (placings.length < PLACINGS_WANTED) askAgain(shell);
}

export function stopRepeats({ store }: Pick<Shell, 'store'>): void {
  store.setState({ repeats: null, task: null });
}

/** The estimate, once there are enough placings; null until then, and where the film has no scale. */
export function outcomeOf({ placings, construction }: Repeats, spacing: Spacing): RepeatsOutcome | null {
  const scale = planeScale(spacing);
  if (placings.length < PLACINGS_WANTED || scale.unit !== 'mm') return null;
  const pairs = construction === 'canal' || construction === 'cortex-pair';
  const lines = placings.map((shape): PlacedLine => {
    const points = pointsOf(shape).map((point) => toPlane(point, scale));
    const [a, b, c, d] = points;
    if (a === undefined || b === undefined) throw new RangeError('an axis has two points');
    return pairs && c && d ? { one: middleOf(a, b), other: middleOf(c, d) } : { one: a, other: b };
  });
  const found = placingErrorFromLines(lines, pairs ? 2 : 1);
  if (!found.ok || !(found.value.standardUncertainty > 0)) return { kind: 'no-spread' };
  const { standardUncertainty, basis } = found.value;
  return {
    kind: 'estimate',
    standardUncertaintyMm: standardUncertainty,
    degreesOfFreedom: basis.degreesOfFreedom,
  };
}

/** Uses an estimate in this case from now on and, if the person says so, in cases begun here later. */
export function adoptRepeats(shell: Shell, inNewCases: boolean): void {
  const { repeats, caseState } = shell.store.getState();
  const film = repeats === null ? null : markedFilm(caseState.document, repeats.filmId);
  const estimate = repeats === null || film === null ? null : outcomeOf(repeats, film.film.spacing);
  if (estimate?.kind !== 'estimate') return;
  const kept = {
    // A thousandth of a millimetre is far below what is known of it.
    placingErrorMm: Math.round(estimate.standardUncertaintyMm * 1000) / 1000,
    placingErrorDegreesOfFreedom: estimate.degreesOfFreedom,
  };
  put(shell, 'use the placing error from repeats', { ...settingsOf(caseState.document), ...kept });
  if (inNewCases) keepOwnPlacingError(notepad, kept);
  stopRepeats(shell);
}

/** A placing error as a case's settings hold it. */
export interface OwnPlacingError {
  readonly placingErrorMm: number;
  readonly placingErrorDegreesOfFreedom: number;
}

const KEY = 'raybend-own-placing-error';

type Notepad = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** Keeps a placing error for new cases of this browser, where it keeps anything. */
export function keepOwnPlacingError(notepad: Notepad, error: OwnPlacingError): void {
  try {
    notepad.setItem(KEY, JSON.stringify(error));
  } catch {
    // A browser that keeps nothing: the case has it all the same, the next one will not.
  }
}

/** The placing error that this person keeps for new cases in this browser; null: none, or unreadable. */
export function ownPlacingError(notepad: Notepad): OwnPlacingError | null {
  try {
    const kept: unknown = JSON.parse(notepad.getItem(KEY) ?? 'null');
    if (typeof kept !== 'object' || kept === null) return null;
    const { placingErrorMm, placingErrorDegreesOfFreedom } = kept as Record<string, unknown>;
    return isSize(placingErrorMm) && isSize(placingErrorDegreesOfFreedom)
      ? { placingErrorMm, placingErrorDegreesOfFreedom }
      : null;
  } catch {
    return null;
  }
}

/** Puts the placing error that this person keeps into a case that has just begun. */
export function takeOwnPlacingError(shell: Shell): void {
  const own = ownPlacingError(notepad);
  const settings = settingsOf(shell.store.getState().caseState.document);
  if (own !== null && settings.placingErrorMm === null)
    put(shell, 'use your own placing error', { ...settings, ...own });
}

const isSize = (value: unknown): value is number => typeof value === 'number' && value > 0 && value <= 1000;
