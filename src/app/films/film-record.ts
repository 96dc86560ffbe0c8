import { type FilmRecord, recordId } from '../../case/document.ts';
import type { Film } from '../../film/film.ts';
import type { View } from '../../tolerance/anatomy.ts';

/** (0018,5101) View Position values that say which of the three views this is; others are left to the user. */
const VIEW_OF_POSITION: Readonly<Record<string, View>> = {
  PA: 'pa',
  AP: 'pa',
  LL: 'lateral',
  RL: 'lateral',
  LLO: 'oblique',
  RLO: 'oblique',
};

/** The record under which a decoded film joins the case; what the file states is offered, never forced. */
export function filmRecordOf(
  film: Film,
  file: { readonly id: string; readonly sha256: string },
  onto: { readonly hand: FilmRecord['hand']; readonly day: number | null },
): FilmRecord {
  const { facts } = film;
  const view = VIEW_OF_POSITION[facts.viewPosition ?? ''] ?? null;
  return {
    kind: 'film',
    id: recordId(file.id),
    sha256: file.sha256,
    format: facts.format,
    columns: film.columns,
    rows: film.rows,
    hand: onto.hand,
    view,
    viewFrom: view === null ? null : 'file',
    day: onto.day,
    moment: null,
    spacing: film.spacing,
    invented: film.spacing.kind === 'millimetres' && film.spacing.origin === 'invented-film',
    lossy: facts.lossy,
    burnedIn: facts.burnedIn,
    stated: { viewPosition: facts.viewPosition, laterality: facts.laterality },
    mirrored: false,
  };
}
