import { createStore } from 'zustand/vanilla';
import { caseId, type RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { pictureKey } from '../../case/film-place.ts';
import { freshState } from '../../case/history.ts';
import { type DrawnFilm, type Exercise, exerciseCase } from '../../classroom/exercise.ts';
import { type NotMeasured, type Reveal, reveal, unmovedSpec } from '../../classroom/reveal.ts';
import { failure, type Result, reasonOf } from '../../geometry/result.ts';
import type { StorageError } from '../../storage/storage-error.ts';
import { sha256Of } from '../../workers/sha256.ts';
import { currentAssessment } from '../assessment.ts';
import type { CaseKeeper, WholeCase } from '../keeper.ts';
import type { Shell } from '../shell.ts';
import { type AppState, initialState } from '../state.ts';
import type { FilmMaker, MadeFilm } from './film-maker.ts';

/** An exercise being measured: a case of its own in a bench of its own, kept nowhere. */
export interface Session {
  readonly exercise: Exercise;
  readonly shell: Shell;
  /** Once every film is drawn; rejects with the reason where one cannot be. */
  readonly ready: Promise<void>;
}

/** Begins an exercise: the films are drawn, and the case is there when they are. */
export function beginSession(app: Shell, maker: FilmMaker, exercise: Exercise): Session {
  const { theme, localSets } = app.store.getState();
  const store = createStore<AppState>(() => ({
    ...initialState(caseId(`exercise ${exercise.id}`), theme),
    localSets,
    opening: 1,
  }));
  const shell: Shell = { ...app, store, keeper: new KeepsNothing() };
  return { exercise, shell, ready: drawFilms(shell, maker, exercise) };
}

async function drawFilms({ store }: Shell, maker: FilmMaker, exercise: Exercise): Promise<void> {
  const made: MadeFilm[] = [];
  try {
    for (const { spec, filmSeed } of exercise.films) made.push(await maker.draw(spec, filmSeed));
  } catch (thrown) {
    store.setState({ opening: 0 });
    throw thrown;
  }
  const drawn: DrawnFilm[] = [];
  for (const { film, truth } of made) {
    const pixels = film.levels[0]!.pixels;
    const bytes = new Uint8Array(pixels.buffer as ArrayBuffer, pixels.byteOffset, pixels.byteLength);
    drawn.push({ sha256: await sha256Of(bytes), spacing: film.spacing, truth });
  }
  const document = exerciseCase(exercise, drawn);
  const records = markedFilms(document).map(({ film }) => film);
  store.setState({
    caseState: freshState(document),
    films: new Map(records.map((record, index) => [pictureKey(record), made[index]!.film])),
    chosenFilm: records[0]?.id ?? null,
    opening: 0,
  });
}

/** Compares what was measured on one film of a session with what is true of it. */
export async function revealFilm(
  { exercise, shell }: Session,
  maker: FilmMaker,
  filmId: RecordId,
): Promise<Result<Reveal, NotMeasured>> {
  const { spec, filmSeed } = exercise.films.find(({ id }) => id === filmId) ?? exercise.films[0];
  const state = shell.store.getState();
  return reveal({
    document: state.caseState.document,
    assessment: currentAssessment(state),
    filmId,
    ray: exercise.ray,
    asked: exercise.asked,
    film: await maker.known(spec, filmSeed),
    unmoved: await maker.known(unmovedSpec(spec), filmSeed),
  });
}

/** Why the truth of a film could not be had, and what to do. */
export const noTruthSentence = (thrown: unknown): string =>
  `The truth of this film could not be worked out (${reasonOf(thrown)}). Ask for it again.`;

/** An exercise ends with its reveal; nothing of it belongs among the person's cases. */
class KeepsNothing implements CaseKeeper {
  keep(): void {}
  async begin(): Promise<void> {}
  async open(): Promise<null> {
    return null;
  }
  async last(): Promise<null> {
    return null;
  }
  async list(): Promise<readonly []> {
    return [];
  }
  async read(): Promise<Result<WholeCase, StorageError>> {
    return failure({ kind: 'not-available', detail: 'exercises are not kept' });
  }
  async put(): Promise<boolean> {
    return true;
  }
  async change(): Promise<boolean> {
    return false;
  }
  async remove(): Promise<boolean> {
    return false;
  }
  async keepFilm(): Promise<void> {}
  async filmBytes(): Promise<null> {
    return null;
  }
  async roomUsed(): Promise<null> {
    return null;
  }
  async askToStay(): Promise<void> {}
}
