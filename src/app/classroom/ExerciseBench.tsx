import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { useStore } from 'zustand';
import type { FilmRecord, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { pictureKey } from '../../case/film-place.ts';
import { injuryOf, settingsOf } from '../../case/fixed-records.ts';
import { canRedo, canUndo, redoName, undoName } from '../../case/history.ts';
import { changeWords } from '../../classroom/change-words.ts';
import { axesOf } from '../../classroom/study.ts';
import type { RayTruth } from '../../phantom/truth.ts';
import { RevealSheet } from '../../ui/classroom/RevealSheet.tsx';
import { PushButton, SwitchButton } from '../../ui/controls/controls.tsx';
import { LiveContext } from '../../ui/live.ts';
import { AxesSection } from '../../ui/worksheet/AxesSection.tsx';
import { ReadingsSection } from '../../ui/worksheet/ReadingsSection.tsx';
import { assessmentOf, LiveAssessments } from '../assessment.ts';
import { benchActions } from '../bench-actions.ts';
import { allSets } from '../limits/sets.ts';
import { captionOf } from '../places/caption-text.ts';
import FilmFigure from '../places/FilmFigure.tsx';
import { placingState, stopPlacing } from '../placing-actions.ts';
import { repeatsState } from '../repeats/repeats-state.ts';
import { say } from '../shell.ts';
import { FilmChoice, PeekFigure, type Revealed, RevealedFigure } from './ExerciseFigures.tsx';
import { modelAxes } from './model-axes.ts';
import type { Room, Running } from './room.ts';
import { beginExercise, fileAttempt, leaveExercise } from './room-actions.ts';
import { noTruthSentence, revealFilm } from './session.ts';
import { keepTurn, turnLacks } from './study-actions.ts';

/** An exercise on a bench of its own: the real plate, axes and readings, and in the end the truth. */
export function ExerciseBench({ room, running }: { readonly room: Room; readonly running: Running }) {
  const { session, turn } = running;
  const { exercise, shell } = session;
  const { store } = shell;
  const document = useStore(store, (state) => state.caseState.document);
  const history = useStore(store, (state) => state.caseState.history);
  const chosen = useStore(store, (state) => state.chosenFilm);
  const task = useStore(store, (state) => state.task);
  const drawing = useStore(store, (state) => state.opening > 0);
  const repeats = useStore(store, (state) => state.repeats);
  const localSets = useStore(store, (state) => state.localSets);
  const theme = useStore(room.app.store, (state) => state.theme);
  const actions = useMemo(() => benchActions(shell), [shell]);
  const live = useMemo(() => new LiveAssessments(() => allSets(store.getState().localSets)), [store]);
  const [revealed, setRevealed] = useState<ReadonlyMap<RecordId, Revealed>>(new Map());
  /** Whoever has seen the truth once measures it the next time; only the first reading counts as an attempt. */
  const filed = useRef(new Set<RecordId>());
  /** The true bone, while it is looked at before measuring. */
  const [peeked, setPeeked] = useState<RayTruth | null>(null);
  useEffect(() => store.setState({ theme }), [store, theme]);

  const drawnBy = useStore(room.store, ({ study }) =>
    study === null || turn === null ? null : axesOf(study, turn.rater),
  );

  const films = markedFilms(document);
  const shown = films.find(({ film }) => film.id === chosen) ?? null;
  const assessment = assessmentOf(document, allSets(localSets));
  const truth = chosen === null ? undefined : revealed.get(chosen);

  const showTruth = async () => {
    const next = new Map(revealed);
    for (const { film } of films) {
      const picture = store.getState().films.get(pictureKey(film));
      if (film.hand !== 'injured' || next.has(film.id) || picture === undefined) continue;
      const result = await revealFilm(session, room.maker, film.id);
      if (!result.ok) {
        store.setState({ chosenFilm: film.id });
        say(room.app, `The truth stays hidden until you have measured. ${result.error.lacks}`);
        return;
      }
      next.set(film.id, { found: result.value, model: modelAxes(picture, result.value) });
      if (!filed.current.has(film.id)) fileAttempt(room, running, result.value);
      filed.current.add(film.id);
    }
    stopPlacing(shell);
    setPeeked(null);
    setRevealed(next);
  };

  const peek = async (on: boolean) => {
    if (!on) {
      setPeeked(null);
      return;
    }
    const [{ id, spec, filmSeed }] = exercise.films;
    const { truth: known } = await room.maker.known(spec, filmSeed);
    filed.current.add(id);
    stopPlacing(shell);
    store.setState({ chosenFilm: id });
    setPeeked(known.rays.find(({ ray }) => ray === exercise.ray) ?? null);
  };

  const noTruth = (thrown: unknown) => say(room.app, noTruthSentence(thrown));

  return (
    <LiveContext.Provider value={live}>
      <div className="bench exercise">
        <div className="bench__form">
          <div className="worksheet">
            <header className="exercise__head">
              <PushButton quiet onPress={() => leaveExercise(room)}>
                Back
              </PushButton>
              <div className="exercise__undo">
                {canUndo(history) && truth === undefined && (
                  <PushButton quiet onPress={actions.undo}>
                    {undoName(history)}
                  </PushButton>
                )}
                {canRedo(history) && truth === undefined && (
                  <PushButton quiet onPress={actions.redo}>
                    {redoName(history)}
                  </PushButton>
                )}
              </div>
            </header>
            {truth === undefined ? (
              <>
                <h2>{turn === null ? exercise.title : `Film ${turn.turn.number} of ${turn.turn.of}`}</h2>
                <p className="exercise__task">{exercise.task}</p>
                {films.length > 1 && (
                  <FilmChoice films={films} chosen={chosen} onChoose={actions.chooseFilm} />
                )}
                {shown !== null && (
                  <>
                    <AxesSection
                      marks={Object.values(shown.marks)}
                      sideRole={shown.film.view === 'pa' ? 'radial-side' : 'dorsal-side'}
                      placing={repeats === null ? placingState(task) : null}
                      trace={null}
                      drawnBy={drawnBy}
                      next={assessment.next?.section === 'axes' ? assessment.next : null}
                      actions={actions}
                    />
                    <ReadingsSection
                      assessment={assessment}
                      film={shown.film}
                      settings={settingsOf(document)}
                      repeats={repeatsState(repeats, shown.film)}
                      actions={actions}
                    />
                  </>
                )}
              </>
            ) : (
              <>
                {films.length > 1 && (
                  <FilmChoice films={films} chosen={chosen} onChoose={actions.chooseFilm} />
                )}
                <RevealSheet
                  found={truth.found}
                  model={typeof truth.model === 'string' ? truth.model : truth.model.words}
                  change={changeWords([...revealed.values()].map(({ found }) => found))}
                />
              </>
            )}
          </div>
          <div className="exercise__foot">
            {running.truthOpen && revealed.size === 0 && (
              <SwitchButton on={peeked !== null} onChange={(on) => void peek(on).catch(noTruth)}>
                Look at the truth
              </SwitchButton>
            )}
            <Foot
              room={room}
              running={running}
              revealed={revealed.size > 0}
              onReveal={() => void showTruth().catch(noTruth)}
              onAgain={() => setRevealed(new Map())}
            />
          </div>
        </div>
        <div className="bench__film">
          <div className="figures">
            <figure className="figure">
              {shown === null ? (
                <div className="plate">
                  <div className="plate__empty">
                    <em>{drawing ? 'The film is being drawn…' : 'No film on the plate'}</em>
                  </div>
                </div>
              ) : peeked !== null && truth === undefined && chosen === exercise.films[0].id ? (
                <PeekFigure running={running} shown={shown} bone={peeked} />
              ) : truth === undefined ? (
                <FilmFigure
                  shell={shell}
                  live={live}
                  record={shown.film}
                  number={films.indexOf(shown) + 1}
                  sentence={sentenceOf(shown.film, document)}
                  prompt={placingState(task)?.instruction ?? null}
                />
              ) : (
                <RevealedFigure running={running} shown={shown} truth={truth} />
              )}
            </figure>
          </div>
        </div>
      </div>
    </LiveContext.Provider>
  );
}

const sentenceOf = (film: FilmRecord, document: Parameters<typeof injuryOf>[0]): string =>
  captionOf(film, injuryOf(document).hand);

interface FootProps {
  readonly room: Room;
  readonly running: Running;
  readonly revealed: boolean;
  readonly onReveal: () => void;
  readonly onAgain: () => void;
}

/** What can be done at the end of an exercise. */
function Foot({ room, running, revealed, onReveal, onAgain }: FootProps): ReactNode {
  const { turn, following, from, truthOpen } = running;
  if (turn !== null) {
    return (
      <PushButton
        next
        onPress={() => {
          const lacks = turnLacks(room, running);
          if (lacks !== null) say(room.app, lacks);
          else keepTurn(room, running);
        }}
      >
        Keep this reading and go on
      </PushButton>
    );
  }
  if (!revealed) {
    return (
      <PushButton next onPress={onReveal}>
        Show the truth
      </PushButton>
    );
  }
  const [next, ...rest] = following;
  return (
    <>
      <PushButton onPress={onAgain}>Correct my lines</PushButton>
      {next === undefined ? (
        <PushButton next onPress={() => leaveExercise(room)}>
          Done
        </PushButton>
      ) : (
        <PushButton next onPress={() => beginExercise(room, next, from, { following: rest, truthOpen })}>
          Next film
        </PushButton>
      )}
    </>
  );
}
