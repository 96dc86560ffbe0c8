import {
  ATTEMPTS_FORMAT,
  type Attempt,
  attemptOf,
  attemptsCsv,
  readAttempts,
  writeAttempts,
} from '../../classroom/attempts.ts';
import { drawnFilm } from '../../classroom/drawn-sets.ts';
import { type Exercise, exerciseOf, rayWords } from '../../classroom/exercise.ts';
import { type ClassroomFileError, classroomFileSentence, formatOf } from '../../classroom/file-head.ts';
import { type FilmSet, readFilmSet, type SetFilm, writeFilmSet } from '../../classroom/film-set.ts';
import { LEVEL_FACTS, type Level } from '../../classroom/levels.ts';
import type { Reveal } from '../../classroom/reveal.ts';
import { joinedStudies, readStudy, STUDY_FORMAT, type Study, writeStudy } from '../../classroom/study.ts';
import { type Result, reasonOf, success } from '../../geometry/result.ts';
import { download } from '../download.ts';
import { say } from '../shell.ts';
import { keepAttempt, keepAttempts, keepSet, keepStudy, notKeptSentence } from './kept-here.ts';
import type { Draft, Room, RoomPage, Running } from './room.ts';
import { beginSession } from './session.ts';

/** A number for a film of its own; any will do. */
export const freshSeed = (): number => crypto.getRandomValues(new Uint32Array(1))[0]!;

export const setDraft = ({ store }: Room, patch: Partial<Draft>): void =>
  store.setState(({ draft }) => ({ draft: { ...draft, ...patch } }));

/** Puts a film of a level, drawn by chance, on the film maker's bench. */
export function drawDraft(room: Room, level: Level): void {
  const { spec, filmSeed, ray } = drawnFilm(level, freshSeed(), 'draft', '');
  setDraft(room, { spec, filmSeed, ray });
}

/** Changes the open set and keeps it; says so where that fails. */
export function putSet(room: Room, patch: Partial<FilmSet>): void {
  const set = { ...room.store.getState().set, ...patch };
  room.store.setState({ set });
  const done = keepSet(set);
  if (!done.ok) say(room.app, notKeptSentence(done.error, 'This set'));
}

/** Adds the film on the bench to the set. */
export function addDraft(room: Room): void {
  const { draft, set } = room.store.getState();
  const film: SetFilm = {
    ...draft,
    id: room.app.newId(),
    title: titleFor(draft, set.films.length + 1),
  };
  putSet(room, { films: [...set.films, film] });
}

const titleFor = ({ ray, spec }: Draft, number: number): string => {
  const turn = Math.abs(spec.view.turnDegrees);
  const view = turn < 22.5 ? 'PA' : turn > 67.5 ? 'lateral' : 'oblique';
  return `Film ${number}: ${rayWords(ray)}, ${view}`;
};

export function saveSet({ store }: Room): void {
  const { set } = store.getState();
  const name = plainName(set.title, 'invented films');
  download(`${name}.json`, new Blob([writeFilmSet(set)], { type: 'application/json' }));
}

const plainName = (title: string, otherwise: string): string => {
  const name = title.replace(/[^\p{L}\p{N} _-]/gu, '').trim();
  return name === '' ? otherwise : name;
};

/** Opens a file of the classroom by what it says it is, and shows where it belongs; says why where it cannot. */
export function openRoomFile(room: Room, text: string, fileName: string): void {
  const { store, app } = room;
  const taken = takeFile(room, text, fileName);
  if (taken.ok) store.setState({ page: taken.value, running: null });
  else say(app, classroomFileSentence(taken.error, fileName));
}

function takeFile(room: Room, text: string, fileName: string): Result<RoomPage, ClassroomFileError> {
  switch (formatOf(text)) {
    case ATTEMPTS_FORMAT: {
      const read = readAttempts(text);
      if (!read.ok) return read;
      addAttempts(room, read.value);
      return success('exercises');
    }
    case STUDY_FORMAT: {
      const read = readStudy(text);
      if (!read.ok) return read;
      takeStudy(room, read.value, fileName);
      return success('agreement');
    }
    default: {
      const read = readFilmSet(text);
      if (!read.ok) return read;
      takeSet(room, read.value, fileName);
      return success('exercises');
    }
  }
}

/** The set of the file takes the place of the one that is open, which can be had back until the message goes. */
function takeSet(room: Room, set: FilmSet, fileName: string): void {
  const { set: open } = room.store.getState();
  putSet(room, set);
  if (open.films.length === 0 || JSON.stringify(open.films) === JSON.stringify(set.films)) return;
  const many = open.films.length === 1 ? 'one film' : `${open.films.length} films`;
  say(room.app, `${fileName} took the place of the open set of ${many}.`, {
    name: 'Bring it back',
    run: () => putSet(room, open),
  });
}

/** Copies of one study are put together; any other takes the place of the one that is open, which can be had back. */
function takeStudy(room: Room, study: Study, fileName: string): void {
  const { study: open } = room.store.getState();
  const joined = open === null ? null : joinedStudies(open, study);
  if (joined?.ok) {
    const added = joined.value.readings.length - (open?.readings.length ?? 0);
    say(
      room.app,
      `${fileName} is a copy of the open study; ${added === 1 ? '1 reading was' : `${added} readings were`} added from it.`,
    );
    putStudy(room, joined.value);
    return;
  }
  putStudy(room, study);
  if (open === null || open.readings.length === 0) return;
  const many = open.readings.length === 1 ? 'one reading' : `${open.readings.length} readings`;
  say(room.app, `${fileName} took the place of the open study with ${many}.`, {
    name: 'Bring it back',
    run: () => putStudy(room, open),
  });
}

/** Takes another study, or none, for the open one and keeps that; says so where that fails. */
export function putStudy(room: Room, study: Study | null): void {
  room.store.setState({ study });
  const done = keepStudy(study);
  if (!done.ok) say(room.app, notKeptSentence(done.error, 'This study'));
}

export function saveStudy({ store }: Room): void {
  const { study } = store.getState();
  if (study === null) return;
  const name = plainName(study.title, 'agreement study');
  download(`${name}.json`, new Blob([writeStudy(study)], { type: 'application/json' }));
}

/** Puts an exercise on the plate. */
export function beginExercise(
  room: Room,
  exercise: Exercise,
  from: string,
  {
    following = [],
    truthOpen = false,
    turn = null,
  }: Partial<Pick<Running, 'following' | 'truthOpen' | 'turn'>> = {},
): void {
  const session = beginSession(room.app, room.maker, exercise);
  session.ready.catch((thrown: unknown) => {
    const why = reasonOf(thrown);
    say(room.app, `The film could not be drawn (${why}). Go back and begin the exercise again.`);
  });
  room.store.setState({ running: { session, from, following, truthOpen, turn } });
}

export const beginLevel = (room: Room, level: Level): void => {
  const seed = freshSeed();
  const exercise = exerciseOf(drawnFilm(level, seed, `${level}-${seed}`, LEVEL_FACTS[level].name));
  beginExercise(room, exercise, `level: ${LEVEL_FACTS[level].name}`);
};

/** Works through a set from one of its films on. */
export function beginSet(room: Room, first: number): void {
  const { set } = room.store.getState();
  const [exercise, ...following] = set.films.slice(first).map(exerciseOf);
  if (exercise === undefined) return;
  const from = `set: ${set.title === '' ? 'without a title' : set.title}`;
  beginExercise(room, exercise, from, { following, truthOpen: set.truth === 'shown' });
}

export const leaveExercise = ({ store }: Room): void => store.setState({ running: null });

/** Files what was found under the person's attempts in this browser. */
export function fileAttempt(room: Room, running: Running, found: Reveal): void {
  const attempt = attemptOf(running.session.exercise, found, room.app.now(), running.from);
  const done = keepAttempt(attempt);
  room.store.setState(({ attempts }) => ({ attempts: [...attempts, attempt] }));
  if (!done.ok) say(room.app, notKeptSentence(done.error, 'This attempt'));
}

function addAttempts(room: Room, found: readonly Attempt[]): void {
  const { attempts } = room.store.getState();
  const known = new Set(attempts.map(({ at, exerciseId }) => `${at} ${exerciseId}`));
  const all = [...attempts, ...found.filter(({ at, exerciseId }) => !known.has(`${at} ${exerciseId}`))];
  const ordered = all.toSorted((one, other) => one.at.localeCompare(other.at));
  room.store.setState({ attempts: ordered });
  const done = keepAttempts(ordered);
  if (!done.ok) say(room.app, notKeptSentence(done.error, 'These attempts'));
}

/** Takes all attempts away; they can be had back until the message goes. */
export function forgetAttempts(room: Room): void {
  const { attempts } = room.store.getState();
  room.store.setState({ attempts: [] });
  keepAttempts([]);
  say(
    room.app,
    attempts.length === 1 ? 'One attempt is forgotten.' : `${attempts.length} attempts are forgotten.`,
    {
      name: 'Bring them back',
      run: () => addAttempts(room, attempts),
    },
  );
}

export function saveAttempts({ store }: Room, kind: 'json' | 'csv'): void {
  const { attempts } = store.getState();
  if (kind === 'json') {
    download('attempts.json', new Blob([writeAttempts(attempts)], { type: 'application/json' }));
  } else download('attempts.csv', new Blob([attemptsCsv(attempts)], { type: 'text/csv' }));
}
