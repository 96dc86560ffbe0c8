import type { PlateView } from '../canvas/plate-view.ts';
import type { CaseDocument, FilmRecord, RecordId } from '../case/document.ts';
import { degrees } from '../geometry/units.ts';
import { followed } from './linked-view.ts';
import type { Shell } from './shell.ts';
import type { AppState } from './state.ts';

/** The film shown beside the chosen one, while both are films of the case. */
export function besideOf({ beside, chosenFilm, caseState }: AppState): FilmRecord | null {
  if (beside === null || beside === chosenFilm) return null;
  return filmOf(caseState.document, beside);
}

/**
 * Shows a second film beside the chosen one; null takes it away. A film of the other hand is shown mirrored
 * beside one of the injured hand, so that the same side of both lies the same way.
 */
export function showBeside({ store }: Pick<Shell, 'store'>, id: RecordId | null): void {
  const { caseState, chosenFilm, views, whole } = store.getState();
  const second = id === null ? null : filmOf(caseState.document, id);
  const first = chosenFilm === null ? null : filmOf(caseState.document, chosenFilm);
  store.setState({ beside: second?.id ?? null });
  if (first === null || second === null || views.has(second.id)) return;
  if (first.hand === 'injured' && second.hand === 'other')
    store.setState({
      views: new Map(views).set(second.id, mirroredWhole(second)),
      whole: new Set(whole).add(second.id),
    });
}

/** A first view: its magnification gives way to the whole film as soon as the plate has a size. */
const mirroredWhole = ({ columns, rows }: FilmRecord): PlateView => ({
  centre: { column: columns / 2, row: rows / 2 } as PlateView['centre'],
  magnification: 0.4,
  turn: degrees(0),
  mirrored: true,
});

/** The two films change places: the second one is worked on. */
export function workOnSecond({ store }: Pick<Shell, 'store'>): void {
  const { beside, chosenFilm } = store.getState();
  if (beside !== null) store.setState({ chosenFilm: beside, beside: chosenFilm, task: null, repeats: null });
}

/**
 * Keeps a view as the plate reports it, and gives the film beside it the same size of a bone on screen, magnified
 * about the same place of its plate.
 *
 * @param isWhole - It shows the whole film.
 */
export function keepView(
  { store }: Pick<Shell, 'store'>,
  id: RecordId,
  view: PlateView,
  isWhole: boolean,
): void {
  const state = store.getState();
  const views = new Map(state.views).set(id, view);
  const whole = new Set(state.whole);
  if (isWhole) whole.add(id);
  else whole.delete(id);
  const other = id === state.chosenFilm ? besideOf(state) : besideOf(state) && chosenOf(state);
  const changed = filmOf(state.caseState.document, id);
  const otherView = other === null ? undefined : views.get(other.id);
  if (
    changed !== null &&
    other !== null &&
    otherView !== undefined &&
    (id === state.chosenFilm || id === state.beside)
  ) {
    const magnification = view.magnification * sizeRatio(changed, other);
    const before = state.views.get(id);
    views.set(
      other.id,
      before === undefined
        ? { ...otherView, magnification }
        : followed(otherView, other, { film: changed, before, after: view }, magnification),
    );
    // Alone again it is shown whole, unless somebody has magnified the two by hand.
    if (!isWhole) whole.delete(other.id);
  }
  store.setState({ views, whole });
}

/**
 * How much more the other film must be magnified to show a bone as large: by its pixels where both have a scale,
 * else by the width of the films.
 */
export function sizeRatio(one: FilmRecord, other: FilmRecord): number {
  if (one.spacing.kind === 'millimetres' && other.spacing.kind === 'millimetres')
    return other.spacing.columnSpacingMm / one.spacing.columnSpacingMm;
  return one.columns / other.columns;
}

const chosenOf = ({ chosenFilm, caseState }: AppState): FilmRecord | null =>
  chosenFilm === null ? null : filmOf(caseState.document, chosenFilm);

function filmOf({ records }: CaseDocument, id: RecordId): FilmRecord | null {
  const record = records[id];
  return record?.kind === 'film' ? record : null;
}
