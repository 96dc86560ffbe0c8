import { type FilmPlace, type FilmRecord, recordId } from '../../case/document.ts';
import type { Film } from '../../film/film.ts';
import { statedView } from './film-view.ts';

/** Which hand and day of the case a film belongs to. */
export interface Onto {
  readonly hand: FilmRecord['hand'];
  readonly day: number | null;
}

/** The record under which a decoded film joins the case; what the file states is offered, never forced. */
export function filmRecordOf(
  film: Film,
  file: { readonly id: string; readonly sha256: string; readonly place?: FilmPlace },
  onto: Onto,
): FilmRecord {
  const { facts } = film;
  const view = statedView(facts);
  return {
    kind: 'film',
    id: recordId(file.id),
    sha256: file.sha256,
    format: facts.format,
    columns: film.columns,
    rows: film.rows,
    shows: 'bones',
    hand: onto.hand,
    view,
    viewFrom: view === null ? null : 'file',
    day: onto.day,
    moment: null,
    spacing: withoutFreeText(film.spacing),
    invented: film.spacing.kind === 'millimetres' && film.spacing.origin === 'invented-film',
    lossy: facts.lossy,
    burnedIn: facts.burnedIn,
    stated: { viewPosition: facts.viewPosition, laterality: facts.laterality },
    mirrored: false,
    ...(file.place === undefined ? {} : { place: file.place }),
  };
}

/**
 * The scale without the text that its file has on how it was found (0028,0A04): somebody typed it, and the case leaves
 * without its films.
 */
const withoutFreeText = (spacing: Film['spacing']): Film['spacing'] =>
  spacing.kind === 'millimetres' ? { ...spacing, calibrationDescription: null } : spacing;
