import { type ReactNode, useMemo } from 'react';
import { useStore } from 'zustand';
import type { MarkedFilm } from '../../case/film-marks.ts';
import { pictureKey } from '../../case/film-place.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { FilmToolsContext, type FilmToolsState } from '../../ui/film-tools/film-tools.ts';
import { useSteady } from '../../ui/steady.ts';
import { placingState } from '../placing-actions.ts';
import type { Shell } from '../shell.ts';
import { filmToolActions } from './film-tool-actions.ts';
import { statedView } from './film-view.ts';

interface FilmToolsHostProps {
  readonly shell: Shell;
  readonly shown: MarkedFilm | null;
  readonly children: ReactNode;
}

/** Hands the film tools of the worksheet what they show, for the film on the plate. */
export function FilmToolsHost({ shell, shown, children }: FilmToolsHostProps) {
  const { store } = shell;
  const injuredHand = useStore(store, (state) => injuryOf(state.caseState.document).hand);
  const task = useStore(store, (state) => state.task);
  const key = shown === null ? null : pictureKey(shown.film);
  const decoded = useStore(store, (state) => (key === null ? null : (state.films.get(key) ?? null)));
  const filmId = shown?.film.id ?? null;
  const actions = useMemo(() => (filmId === null ? null : filmToolActions(shell, filmId)), [shell, filmId]);
  const state = useSteady<FilmToolsState | null>(
    shown === null || actions === null
      ? null
      : {
          injuredHand,
          object: shown.marks['scale-object'] ?? null,
          furtherObject: shown.marks['scale-object-2'] ?? null,
          placing: placingState(task),
          statedView: statedView(decoded?.facts ?? { viewPosition: shown.film.stated.viewPosition }),
          orientation: decoded?.facts.patientOrientation ?? null,
          frames: decoded?.frame?.count ?? 1,
          hasMarks: Object.keys(shown.marks).length > 0,
          actions,
        },
  );
  return <FilmToolsContext.Provider value={state}>{children}</FilmToolsContext.Provider>;
}
