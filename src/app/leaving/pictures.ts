import type { FilmRecord, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { pictureKey } from '../../case/film-place.ts';
import type { Film } from '../../film/film.ts';
import { defaultLight } from '../../film/light.ts';
import { failure, type Result, success } from '../../geometry/result.ts';
import { findText } from '../../record/snapshot/burned-in-text.ts';
import { type FilmArea, filmPicture, type GreyPicture } from '../../record/snapshot/film-picture.ts';
import { planSnapshot, snapshotErrorSentence } from '../../record/snapshot/plan.ts';
import { drawSnapshot, measureWithCanvas } from '../../record/snapshot/raster.ts';
import type { SnapshotChoice, SnapshotPlan } from '../../record/snapshot/snapshot-plan.ts';
import type { Covered, PictureChoice } from '../../ui/leaving/leaving.ts';
import { currentAssessment } from '../assessment.ts';
import { loadFilm } from '../films/film-actions.ts';
import type { Shell } from '../shell.ts';
import { type Made, refused } from './made.ts';
import { shownArea } from './shown-area.ts';

export interface Planned {
  readonly plan: SnapshotPlan;
  readonly pictures: ReadonlyMap<RecordId, GreyPicture>;
}

/** Lays out a snapshot of films as they are lit on the plate. Fails with a sentence. */
export async function plannedSnapshot(
  shell: Shell,
  choice: PictureChoice & Pick<SnapshotChoice, 'small'>,
  covered: Covered,
): Promise<Made<Planned>> {
  await document.fonts.ready;
  const pictures = new Map<RecordId, GreyPicture>();
  const films: { id: RecordId; area: FilmArea | null }[] = [];
  for (const id of choice.films) {
    const decoded = await decodedFilm(shell, id);
    if (!decoded.ok) return decoded;
    const { record, film } = decoded.value;
    const area = choice.part === 'on-plate' && choice.films.length === 1 ? areaOnPlate(shell, record) : null;
    const light = shell.store.getState().lights.get(id) ?? defaultLight(film);
    pictures.set(id, filmPicture(film, light, { area, covered: covered.get(id) ?? [] }));
    films.push({ id, area });
  }
  const state = shell.store.getState();
  const planned = planSnapshot(
    state.caseState.document,
    currentAssessment(state),
    { ...choice, films },
    measureWithCanvas(),
  );
  return planned.ok
    ? success({ plan: planned.value, pictures })
    : refused(snapshotErrorSentence(planned.error));
}

/** The same, drawn. */
export function drawnSnapshot({ plan, pictures }: Planned): Made<OffscreenCanvas> {
  const drawn = drawSnapshot(plan, pictures);
  return drawn.ok ? drawn : refused(snapshotErrorSentence(drawn.error));
}

/**
 * Where letters may be burned into a film, as it first appears: whoever lights it otherwise burns in nothing.
 * Fails with `no-pixels` where the film is not here.
 */
export async function textOn(
  shell: Shell,
  id: RecordId,
): Promise<Result<readonly FilmArea[], { readonly kind: 'no-pixels' }>> {
  const decoded = await decodedFilm(shell, id);
  if (!decoded.ok) return failure({ kind: 'no-pixels' });
  const { film } = decoded.value;
  return success(findText(filmPicture(film, defaultLight(film), { area: null, covered: [] })));
}

/** A film of the case with its pixels, decoded now if need be. */
export async function decodedFilm(
  shell: Shell,
  id: RecordId,
): Promise<Made<{ readonly record: FilmRecord; readonly film: Film }>> {
  const { caseState } = shell.store.getState();
  const index = markedFilms(caseState.document).findIndex(({ film }) => film.id === id);
  const record = caseState.document.records[id];
  if (record?.kind !== 'film') return refused(snapshotErrorSentence({ kind: 'no-such-film' }));
  await loadFilm(shell, record);
  const film = shell.store.getState().films.get(pictureKey(record));
  return film === undefined
    ? refused(
        `Film ${index + 1} has no pixels here, so no picture can be made of it. Open its file again; the record without a picture, the patient sheet, the note and the tables can leave now.`,
      )
    : success({ record, film });
}

/** What the plate shows of a film; null: all of it, or it is not on the plate. */
export function areaOnPlate({ store }: Shell, record: FilmRecord): FilmArea | null {
  const { views, whole, chosenFilm } = store.getState();
  const view = views.get(record.id);
  const plate = document.querySelector('.plate__host')?.getBoundingClientRect();
  if (view === undefined || plate === undefined || whole.has(record.id) || chosenFilm !== record.id)
    return null;
  return shownArea(record, view, plate);
}
