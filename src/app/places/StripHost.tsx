import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { NextStep } from '../../case/assessment.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { pictureKey } from '../../case/film-place.ts';
import type { BenchActions } from '../../ui/actions.ts';
import { Strip } from '../../ui/strip/Strip.tsx';
import { besideOf } from '../beside.ts';
import type { Shell } from '../shell.ts';

interface StripHostProps {
  readonly shell: Shell;
  readonly next: NextStep | null;
  readonly actions: BenchActions;
}

/** Keeps the strip in step with the films and their small pictures, so that no more than it is drawn with each. */
export function StripHost({ shell, next, actions }: StripHostProps) {
  const { store } = shell;
  const document = useStore(store, (state) => state.caseState.document);
  const thumbnails = useStore(store, (state) => state.thumbnails);
  const chosen = useStore(store, (state) => state.chosenFilm);
  const beside = useStore(store, (state) => besideOf(state)?.id ?? null);
  const films = useMemo(
    () =>
      markedFilms(document).map(({ film }, index) => ({
        record: film,
        number: index + 1,
        thumbnail: thumbnails.get(pictureKey(film)) ?? null,
      })),
    [document, thumbnails],
  );
  return (
    <Strip
      films={films}
      chosen={chosen}
      beside={beside}
      openNext={next?.line === 'film'}
      nextFilm={next?.filmId ?? null}
      actions={actions}
    />
  );
}
