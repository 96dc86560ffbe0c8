import { lazy, Suspense, useCallback, useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { markedFilms } from '../../case/film-marks.ts';
import { examinationOf, injuryOf, settingsOf } from '../../case/fixed-records.ts';
import { checksFor } from '../../tolerance/checks.ts';
import type { BenchActions } from '../../ui/actions.ts';
import { PushButton } from '../../ui/controls/controls.tsx';
import { HelpContext } from '../../ui/help/HelpMark.tsx';
import type { HelpId } from '../../ui/help/page.ts';
import { LiveContext } from '../../ui/live.ts';
import { OutcomePanel } from '../../ui/outcome/OutcomePanel.tsx';
import { useSteady } from '../../ui/steady.ts';
import { fetchFilmSections, Worksheet } from '../../ui/worksheet/Worksheet.tsx';
import { assessmentOf, LiveAssessments } from '../assessment.ts';
import { besideOf } from '../beside.ts';
import { FilmToolsHost } from '../films/FilmToolsHost.tsx';
import { HintHost } from '../HintHost.tsx';
import { LeavingHost } from '../leaving/LeavingHost.tsx';
import { allSets } from '../limits/sets.ts';
import { placingState } from '../placing-actions.ts';
import { repeatsState } from '../repeats/repeats-state.ts';
import type { Shell } from '../shell.ts';
import type { SaveState } from '../state.ts';
import { traceState } from '../tracing/trace-state.ts';
import { tapWanted } from '../tracing/trace-task.ts';
import { captionOf } from './caption-text.ts';
import { StripHost } from './StripHost.tsx';

/** What draws the film is fetched while the first film is decoded, and the definitions when they are asked for. */
const fetchFigure = () => import('./FilmFigure.tsx');
const FilmFigure = lazy(fetchFigure);
const fetchFirst = () => import('./FirstPicture.tsx');
const FirstPictureOnPlate = lazy(async () => ({ default: (await fetchFirst()).FirstPictureOnPlate }));
const FirstCaption = lazy(async () => ({ default: (await fetchFirst()).FirstCaption }));
const HelpPanel = lazy(() => import('../../ui/help/HelpPanel.tsx'));

const SAVED_WORDS: Readonly<Record<SaveState['kind'], string>> = {
  saved: 'kept on this computer',
  saving: 'being kept…',
  'not-saved': 'not kept yet',
};

/** By itself, so that keeping the case draws two words anew and not the form. */
function SavedWords({ shell }: { shell: Shell }) {
  return SAVED_WORDS[useStore(shell.store, (state) => state.saved.kind)];
}

interface BenchPlaceProps {
  readonly shell: Shell;
  readonly actions: BenchActions;
}

/** The bench: form and film side by side, the strip below, definitions beside. */
export function BenchPlace({ shell, actions }: BenchPlaceProps) {
  const { store } = shell;
  const document = useStore(store, (state) => state.caseState.document);
  const chosen = useStore(store, (state) => state.chosenFilm);
  const task = useStore(store, (state) => state.task);
  const trace = useStore(store, (state) => state.trace);
  const opening = useStore(store, (state) => state.opening > 0);
  const localSets = useStore(store, (state) => state.localSets);
  const repeats = useStore(store, (state) => state.repeats);
  const second = useStore(store, besideOf);
  const live = useMemo(() => new LiveAssessments(() => allSets(store.getState().localSets)), [store]);
  const [help, setHelp] = useState<{ readonly page: HelpId | null } | null>(null);
  const openHelp = useCallback((page: HelpId | null) => setHelp({ page }), []);

  // Not only once there is a film: both come while it is being decoded.
  useEffect(() => {
    void fetchFigure();
    void fetchFilmSections();
  }, []);

  const limitSets = allSets(localSets);
  const assessment = useSteady(assessmentOf(document, limitSets));
  const injury = useSteady(injuryOf(document));
  const settings = useSteady(settingsOf(document));
  const examination = useSteady(examinationOf(document));
  const films = markedFilms(document);
  const shown = films.find(({ film }) => film.id === chosen) ?? null;
  const marks = useSteady(Object.values(shown?.marks ?? {}));
  const checks = useSteady(checksFor(injury));
  const tracing = useSteady(shown === null ? null : traceState(trace, shown.film, injury));
  const repeating = useSteady(repeatsState(repeats, shown?.film ?? null));
  const placing = useSteady(placingState(task));
  const saved = useMemo(() => <SavedWords shell={shell} />, [shell]);

  return (
    <LiveContext.Provider value={live}>
      <HelpContext.Provider value={openHelp}>
        <main className="bench">
          <div className="bench__form">
            <HintHost shell={shell} />
            <FilmToolsHost shell={shell} shown={shown}>
              <LeavingHost shell={shell}>
                <Worksheet
                  injury={injury}
                  examination={examination}
                  settings={settings}
                  film={shown?.film ?? null}
                  marks={marks}
                  checks={checks}
                  assessment={assessment}
                  placing={repeats === null ? placing : null}
                  trace={tracing}
                  repeats={repeating}
                  saved={saved}
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
                <Suspense fallback={<div className="plate" />}>
                  {shown === null ? (
                    <>
                      <div className="plate">
                        <div className="plate__empty">
                          <em>{opening ? 'Opening the film…' : 'No film on the plate'}</em>
                          <span>
                            Open, drop or paste a DICOM radiograph, or a PNG or JPEG picture of one.
                          </span>
                        </div>
                        <Suspense fallback={null}>
                          {opening && (
                            <FirstPictureOnPlate shell={shell} of={document.id} light={null} view={null} />
                          )}
                        </Suspense>
                      </div>
                      <Suspense fallback={null}>
                        {opening && <FirstCaption shell={shell} of={document.id} />}
                      </Suspense>
                    </>
                  ) : (
                    <FilmFigure
                      shell={shell}
                      live={live}
                      record={shown.film}
                      number={films.indexOf(shown) + 1}
                      sentence={captionOf(shown.film, injury.hand)}
                      prompt={placing?.instruction ?? (trace === null ? null : tapWanted(trace))}
                    />
                  )}
                </Suspense>
              </figure>
              {second !== null && (
                <figure className="figure">
                  <Suspense fallback={null}>
                    <FilmFigure
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
                        label="Close the second film"
                      >
                        Close
                      </PushButton>
                    </FilmFigure>
                  </Suspense>
                </figure>
              )}
            </div>
            <StripHost shell={shell} next={assessment.next} actions={actions} />
          </div>
          {help !== null && (
            <Suspense fallback={null}>
              <HelpPanel page={help.page} onPage={openHelp} onClose={() => setHelp(null)} />
            </Suspense>
          )}
        </main>
      </HelpContext.Provider>
    </LiveContext.Provider>
  );
}
