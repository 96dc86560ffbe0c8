import { type ReactNode, useCallback, useEffect, useMemo, useRef, useState } from 'react';
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
import type { BenchActions } from '../../ui/actions.ts';
import { PushButton } from '../../ui/controls/controls.tsx';
import { HelpContext, HelpPanel } from '../../ui/help/HelpPanel.tsx';
import type { HelpId } from '../../ui/help/page.ts';
import { LiveContext } from '../../ui/live.ts';
import { OutcomePanel } from '../../ui/outcome/OutcomePanel.tsx';
import { Caption, type LightActions } from '../../ui/plate/Caption.tsx';
import { Strip } from '../../ui/strip/Strip.tsx';
import { Worksheet } from '../../ui/worksheet/Worksheet.tsx';
import { assessmentOf, LiveAssessments } from '../assessment.ts';
import { besideOf } from '../beside.ts';
import { FilmToolsHost } from '../films/FilmToolsHost.tsx';
import { loadFilm } from '../films/film-actions.ts';
import { LeavingHost } from '../leaving/LeavingHost.tsx';
import { allSets } from '../limits/sets.ts';
import { placingState } from '../placing-actions.ts';
import { PlateHost } from '../plate-host.tsx';
import { repeatsState } from '../repeats/repeats-state.ts';
import type { Shell } from '../shell.ts';
import type { SaveState } from '../state.ts';
import { traceState } from '../tracing/trace-state.ts';
import { tapWanted } from '../tracing/trace-task.ts';
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
  const trace = useStore(store, (state) => state.trace);
  const saved = useStore(store, (state) => state.saved);
  const opening = useStore(store, (state) => state.opening);
  const thumbnails = useStore(store, (state) => state.thumbnails);
  const localSets = useStore(store, (state) => state.localSets);
  const repeats = useStore(store, (state) => state.repeats);
  const second = useStore(store, besideOf);
  const live = useMemo(() => new LiveAssessments(() => allSets(store.getState().localSets)), [store]);
  const [help, setHelp] = useState<{ readonly page: HelpId | null } | null>(null);
  const openHelp = useCallback((page: HelpId | null) => setHelp({ page }), []);

  const limitSets = allSets(localSets);
  const assessment = assessmentOf(document, limitSets);
  const injury = injuryOf(document);
  const settings = settingsOf(document);
  const films = markedFilms(document);
  const shown = films.find(({ film }) => film.id === chosen) ?? null;
  const placing = placingState(task);

  return (
    <LiveContext.Provider value={live}>
      <HelpContext.Provider value={openHelp}>
        <main className="bench">
          <div className="bench__form">
            <FilmToolsHost shell={shell} shown={shown}>
              <LeavingHost shell={shell}>
                <Worksheet
                  injury={injury}
                  examination={examinationOf(document)}
                  settings={settings}
                  film={shown?.film ?? null}
                  marks={Object.values(shown?.marks ?? {})}
                  checks={checksFor(injury)}
                  assessment={assessment}
                  placing={repeats === null ? placing : null}
                  trace={shown === null ? null : traceState(trace, shown.film, injury)}
                  repeats={repeatsState(repeats, shown?.film ?? null)}
                  saved={SAVED_WORDS[saved.kind]}
                  actions={actions}
                />
              </LeavingHost>
            </FilmToolsHost>
            <OutcomePanel
              assessment={assessment}
              film={shown?.film ?? null}
              injury={injury}
              limitSets={limitSets}
              settings={settings}
              actions={actions}
            />
          </div>
          <div className="bench__film">
            <div className="figures" data-two={second !== null || undefined}>
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
                    prompt={placing?.instruction ?? (trace === null ? null : tapWanted(trace))}
                  />
                )}
              </figure>
              {second !== null && (
                <figure className="figure">
                  <Figure
                    key={second.id}
                    shell={shell}
                    live={live}
                    record={second}
                    number={films.findIndex(({ film }) => film.id === second.id) + 1}
                    sentence={captionOf(second, injury.hand)}
                    prompt={null}
                  >
                    <PushButton onPress={actions.workOnSecond}>Work on this one</PushButton>
                    <PushButton
                      quiet
                      onPress={() => actions.showBeside(null)}
                      label="Take the second film away"
                    >
                      Close
                    </PushButton>
                  </Figure>
                </figure>
              )}
            </div>
            <Strip
              films={films.map(({ film }, i) => ({
                record: film,
                number: i + 1,
                thumbnail: thumbnails.get(pictureKey(film)) ?? null,
              }))}
              chosen={chosen}
              beside={second?.id ?? null}
              openNext={assessment.next?.line === 'film'}
              nextFilm={assessment.next?.filmId ?? null}
              actions={actions}
            />
          </div>
          {help !== null && <HelpPanel page={help.page} onPage={openHelp} onClose={() => setHelp(null)} />}
        </main>
      </HelpContext.Provider>
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
  /** Further buttons of the caption. */
  readonly children?: ReactNode;
}

/** The plate with what is said of it below: the caption and the light. */
export function Figure({ shell, live, record, number, sentence, prompt, children }: FigureProps) {
  const plate = useRef<Plate | null>(null);
  const onPlate = useCallback((made: Plate | null) => {
    plate.current = made;
  }, []);
  const film = useStore(shell.store, (state) => state.films.get(pictureKey(record)) ?? null);
  useEffect(() => {
    // Of many films only the last ones looked at stay decoded.
    if (film === null) void loadFilm(shell, record);
  }, [shell, record, film]);
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
