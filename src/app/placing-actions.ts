import { putRecord, removal } from '../case/apply.ts';
import type { MarkRecord, MarkRole, RecordId } from '../case/document.ts';
import { filmFollowing } from '../case/film-scale.ts';
import { markId } from '../case/marks.ts';
import { advance, nextPoint, type Placing, placingCaption, startPlacing, stepBack } from '../case/placing.ts';
import { roleName, type ShapeConstruction } from '../case/roles.ts';
import { countOf, pointsOf } from '../case/shape-points.ts';
import type { FilmPoint } from '../geometry/units.ts';
import type { PlacingState } from '../ui/worksheet/MarkLine.tsx';
import { stopRepeats, takePlacing } from './repeats/repeats.ts';
import { perform, put, type Shell } from './shell.ts';
import type { PlacingTask } from './state.ts';

/** Begins to place a mark on the film on the plate; nothing happens without one. */
export function place(shell: Shell, role: MarkRole, construction: ShapeConstruction): void {
  const { chosenFilm } = shell.store.getState();
  if (chosenFilm === null) return;
  shell.store.setState({ repeats: null });
  shell.store.setState({ task: { filmId: chosenFilm, placing: startPlacing(role, construction), tail: [] } });
}

/**
 * Asks for what makes a placed mark one larger: two points for a level, one for a rim or a cortex. The points
 * that are there stay; a head's broken end follows the new rim point by itself.
 */
export function addPoint(shell: Shell, id: RecordId): void {
  const mark = shell.store.getState().caseState.document.records[id];
  if (mark?.kind !== 'mark') return;
  const { construction } = mark.shape;
  const points = pointsOf(mark.shape);
  const kept = construction === 'head' ? points.length - 1 : points.length;
  shell.store.setState({
    task: {
      filmId: mark.filmId,
      placing: {
        ...startPlacing(mark.role, construction, countOf(mark.shape) + 1),
        points: points.slice(0, kept),
      },
      tail: points.slice(kept),
    },
  });
}

/** Takes the next point from the plate; the last one makes the mark and is one undoable action. */
export function placePoint(shell: Shell, point: FilmPoint): void {
  const { task, caseState } = shell.store.getState();
  if (task === null) return;
  let advanced = advance(task.placing, point);
  const rest = [...task.tail];
  while (advanced.state === 'placing' && rest.length > 0 && isAtTail(advanced.placing, rest.length)) {
    advanced = advance(advanced.placing, rest.shift()!);
  }
  if (advanced.state === 'placing') {
    shell.store.setState({ task: { ...task, placing: advanced.placing, tail: rest } });
    return;
  }
  shell.store.setState({ task: null });
  const { repeats } = shell.store.getState();
  if (repeats !== null) {
    takePlacing(shell, repeats, advanced.shape);
    return;
  }
  const id = markId(task.filmId, task.placing.role);
  const mark: MarkRecord = {
    kind: 'mark',
    id,
    filmId: task.filmId,
    role: task.placing.role,
    shape: advanced.shape,
    provenance: 'placed',
  };
  const verb = caseState.document.records[id] === undefined ? 'place' : 'place again';
  putMark(shell, `${verb} ${roleName(mark.role)}`, mark);
}

/** Puts a mark into the case, and the film's scale after it where the mark is what gives the scale. */
export function putMark(shell: Shell, label: string, mark: MarkRecord): void {
  const { document } = shell.store.getState().caseState;
  const film = filmFollowing(document, mark, false);
  put(shell, label, mark, ...(film === null ? [] : [film]));
}

/** Whether all that is still wanted is what the mark already had. */
const isAtTail = (placing: Placing, tailLength: number): boolean => {
  const { number, of } = nextPoint(placing);
  return of - number + 1 === tailLength;
};

/** Ends placing; of repeats, all that were made so far are thrown away. */
export function stopPlacing(shell: Shell): void {
  if (shell.store.getState().task !== null) stopRepeats(shell);
}

export function stepBackPlacing(shell: Shell): void {
  const { task } = shell.store.getState();
  if (task === null) return;
  const placing = stepBack(task.placing);
  if (placing === null) stopPlacing(shell);
  else shell.store.setState({ task: { ...task, placing } });
}

export function removeMark(shell: Shell, id: RecordId): void {
  const { document } = shell.store.getState().caseState;
  const mark = document.records[id];
  if (mark?.kind !== 'mark') return;
  const film = filmFollowing(document, mark, true);
  const gone = removal(document, `remove ${roleName(mark.role)}`, shell.now(), id);
  const steps = film === null ? gone.steps : [...gone.steps, putRecord(document, film)];
  const transaction = { ...gone, steps };
  perform(shell, { kind: 'do', transaction });
}

/** What the worksheet says of the mark being placed. */
export function placingState(task: PlacingTask | null): PlacingState | null {
  if (task === null) return null;
  const next = nextPoint(task.placing);
  return {
    role: task.placing.role,
    caption: placingCaption(task.placing),
    instruction: next.instruction,
    canStepBack: next.number > 1,
  };
}
