import { type ReactNode, useCallback, useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import type { Plate } from '../../canvas/plate.ts';
import { wholeFilmView } from '../../canvas/plate-view.ts';
import type { FilmRecord } from '../../case/document.ts';
import { pictureKey } from '../../case/film-place.ts';
import type { Film } from '../../film/film.ts';
import type { Light } from '../../film/grey-scale.ts';
import { defaultLight, lightAt, slidersOf } from '../../film/light.ts';
import { degrees } from '../../geometry/units.ts';
import { Caption, type LightActions } from '../../ui/plate/Caption.tsx';
import type { LiveAssessments } from '../assessment.ts';
import { loadFilm } from '../films/film-actions.ts';
import { PlateHost } from '../plate-host.tsx';
import type { Shell } from '../shell.ts';
import { FirstCaption, FirstPictureOnPlate } from './FirstPicture.tsx';

interface FigureProps {
  readonly shell: Shell;
  readonly live: LiveAssessments;
  readonly record: FilmRecord;
  readonly number: number;
  readonly sentence: string;
  readonly prompt: string | null;
  /** Further buttons of the caption. */
  readonly children?: ReactNode;
}

/** The plate with what is said of it below: the caption and the light. */
export default function FilmFigure({ shell, live, record, number, sentence, prompt, children }: FigureProps) {
  const plate = useRef<Plate | null>(null);
  const onPlate = useCallback((made: Plate | null) => {
    plate.current = made;
  }, []);
  const film = useStore(shell.store, (state) => state.films.get(pictureKey(record)) ?? null);
  const light = useStore(shell.store, (state) => state.lights.get(record.id) ?? null);
  const view = useStore(shell.store, (state) => state.views.get(record.id) ?? null);
  useEffect(() => {
    // Of many films only the last ones looked at stay decoded.
    if (film === null) void loadFilm(shell, record);
  }, [shell, record, film]);
  return (
    <>
      <div className="plate">
        <PlateHost shell={shell} live={live} record={record} onPlate={onPlate} />
        {film === null && (
          <FirstPictureOnPlate shell={shell} of={pictureKey(record)} light={light} view={view} />
        )}
        {prompt !== null && (
          <p className="plate__prompt" role="status">
            {prompt}
          </p>
        )}
      </div>
      {film === null ? (
        <FirstCaption shell={shell} of={pictureKey(record)} />
      ) : (
        <LitCaption
          shell={shell}
          record={record}
          film={film}
          title={`Film ${number}.`}
          sentence={sentence}
          wholeFilm={() => plate.current?.wholeFilm()}
        >
          {children}
        </LitCaption>
      )}
    </>
  );
}

interface LitCaptionProps {
  readonly shell: Shell;
  readonly record: FilmRecord;
  readonly film: Film;
  readonly title: string;
  readonly sentence: string;
  readonly wholeFilm: () => void;
  readonly children?: ReactNode;
}

function LitCaption({ shell, record, film, title, sentence, wholeFilm, children }: LitCaptionProps) {
  const { store } = shell;
  const light = useStore(store, (state) => state.lights.get(record.id) ?? null) ?? defaultLight(film);
  const view = useStore(store, (state) => state.views.get(record.id) ?? null);
  const setLight = (next: Light) =>
    store.setState(({ lights }) => ({ lights: new Map(lights).set(record.id, next) }));
  const setView = (patch: { turn?: number; mirrored?: boolean }) => {
    const now = view ?? wholeFilmView(film, { width: 800, height: 600 });
    store.setState(({ views }) => ({
      views: new Map(views).set(record.id, {
        ...now,
        turn: degrees(patch.turn ?? now.turn),
        mirrored: patch.mirrored ?? now.mirrored,
      }),
    }));
  };
  const sliders = slidersOf(film, light);
  const actions: LightActions = {
    setBrightness: (brightness) => setLight(lightAt(film, { ...sliders, brightness }, light.negative)),
    setContrast: (contrast) => setLight(lightAt(film, { ...sliders, contrast }, light.negative)),
    setNegative: (negative) => setLight({ ...light, negative }),
    setMirrored: (mirrored) => setView({ mirrored }),
    turn: () => setView({ turn: ((view?.turn ?? 0) + 90) % 360 }),
    wholeFilm,
  };
  return (
    <Caption
      title={title}
      sentence={sentence}
      light={{ ...sliders, negative: light.negative, mirrored: view?.mirrored ?? false }}
      actions={actions}
    >
      {children}
    </Caption>
  );
}
