import { useCallback, useMemo, useRef } from 'react';
import { useStore } from 'zustand';
import type { Plate } from '../../canvas/plate.ts';
import { wholeFilmView } from '../../canvas/plate-view.ts';
import type { FilmRecord } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { pictureKey } from '../../case/film-place.ts';
import { examinationOf, injuryOf, settingsOf } from '../../case/fixed-records.ts';
import type { Film } from '../../film/film.ts';
import type { Light } from '../../film/grey-scale.ts';
import { defaultLight, lightAt, slidersOf } from '../../film/light.ts';
import { degrees } from '../../geometry/units.ts';
import { checksFor } from '../../tolerance/checks.ts';
import { SHIPPED_LIMIT_SETS } from '../../tolerance/limit-sets.ts';
import { ticksFor } from '../../tolerance/ticks.ts';
import type { BenchActions } from '../../ui/actions.ts';
import { LiveContext } from '../../ui/live.ts';
import { OutcomePanel } from '../../ui/outcome/OutcomePanel.tsx';
import { Caption, type LightActions } from '../../ui/plate/Caption.tsx';
import { Strip } from '../../ui/strip/Strip.tsx';
import { Worksheet } from '../../ui/worksheet/Worksheet.tsx';
import { assessmentOf, LiveAssessments } from '../assessment.ts';
import { placingState } from '../placing-actions.ts';
import { PlateHost } from '../plate-host.tsx';
import type { Shell } from '../shell.ts';
import type { SaveState } from '../state.ts';
import { captionOf } from './caption-text.ts';

const SAVED_WORDS: Readonly<Record<SaveState['kind'], string>> = {
  saved: 'kept on this computer',
  saving: 'being kept…',
  'not-saved': 'not kept yet',
};

interface BenchPlaceProps {
  readonly shell: Shell;
  readonly actions: BenchActions;
}

export function BenchPlace({ shell, actions }: BenchPlaceProps) {
  const { store } = shell;
  const document = useStore(store, (state) => state.caseState.document);
  const chosen = useStore(store, (state) => state.chosenFilm);
  const task = useStore(store, (state) => state.task);
  const saved = useStore(store, (state) => state.saved);
  const opening = useStore(store, (state) => state.opening);
  const thumbnails = useStore(store, (state) => state.thumbnails);
  const live = useMemo(() => new LiveAssessments(), []);

  const assessment = assessmentOf(document);
  const injury = injuryOf(document);
  const settings = settingsOf(document);
  const films = markedFilms(document);
  const shown = films.find(({ film }) => film.id === chosen) ?? null;
  const readingIds = new Set(
    assessment.readings.filter((reading) => reading.filmId === chosen).map((reading) => reading.id),
  );
  const comparison = assessment.comparisons.find(({ readingId }) => readingIds.has(readingId)) ?? null;
  const placing = placingState(task);

  return (
    <LiveContext.Provider value={live}>
      <main className="bench">
        <div className="bench__form">
          <Worksheet
            injury={injury}
            examination={examinationOf(document)}
            settings={settings}
            film={shown?.film ?? null}
            marks={Object.values(shown?.marks ?? {})}
            checks={checksFor(injury)}
            assessment={assessment}
            placing={placing}
            saved={SAVED_WORDS[saved.kind]}
            actions={actions}
          />
          <OutcomePanel
            assessment={assessment}
            comparison={comparison}
            ticks={
              injury.ray === null || injury.region === null
                ? []
                : ticksFor(injury.ray, injury.region, 'apex-dorsal')
            }
            limitSets={SHIPPED_LIMIT_SETS}
            settings={settings}
            actions={actions}
          />
        </div>
        <div className="bench__film">
          <figure className="figure">
            {shown === null ? (
              <div className="plate">
                <div className="plate__empty">
                  <em>{opening > 0 ? 'Opening the film…' : 'No film on the plate'}</em>
                  <span>Open, drop or paste a DICOM radiograph, or a PNG or JPEG picture of one.</span>
                </div>
              </div>
            ) : (
              <Figure
                shell={shell}
                live={live}
                record={shown.film}
                number={films.indexOf(shown) + 1}
                sentence={captionOf(shown.film, injury.hand)}
                prompt={placing?.instruction ?? null}
              />
            )}
          </figure>
          <Strip
            films={films.map(({ film }, i) => ({
              record: film,
              number: i + 1,
              thumbnail: thumbnails.get(pictureKey(film)) ?? null,
            }))}
            chosen={chosen}
            actions={actions}
          />
        </div>
      </main>
    </LiveContext.Provider>
  );
}

interface FigureProps {
  readonly shell: Shell;
  readonly live: LiveAssessments;
  readonly record: FilmRecord;
  readonly number: number;
  readonly sentence: string;
  readonly prompt: string | null;
}

/** The plate with what is said of it below: the caption and the light. */
function Figure({ shell, live, record, number, sentence, prompt }: FigureProps) {
  const plate = useRef<Plate | null>(null);
  const onPlate = useCallback((made: Plate | null) => {
    plate.current = made;
  }, []);
  const film = useStore(shell.store, (state) => state.films.get(pictureKey(record)) ?? null);
  return (
    <>
      <div className="plate">
        <PlateHost shell={shell} live={live} record={record} onPlate={onPlate} />
        {prompt !== null && (
          <p className="plate__prompt" role="status">
            {prompt}
          </p>
        )}
      </div>
      {film !== null && (
        <LitCaption
          shell={shell}
          record={record}
          film={film}
          title={`Film ${number}.`}
          sentence={sentence}
          wholeFilm={() => plate.current?.wholeFilm()}
        />
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
}

function LitCaption({ shell, record, film, title, sentence, wholeFilm }: LitCaptionProps) {
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
    />
  );
}
