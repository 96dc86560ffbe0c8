import { exerciseOf } from '../../classroom/exercise.ts';
import { axesOf, nextTurn, withReading } from '../../classroom/study.ts';
import { CONSTRUCTION_WORDS } from '../../tolerance/limit-method.ts';
import { currentAssessment } from '../assessment.ts';
import { say } from '../shell.ts';
import type { Room, Running } from './room.ts';
import { beginExercise, leaveExercise, putStudy } from './room-actions.ts';

/** Puts the next film of a rater on the plate, under a number that says nothing of which film it is. */
export function beginTurn(room: Room, rater: string): void {
  const { study } = room.store.getState();
  const turn = study === null ? null : nextTurn(study, rater);
  if (study === null || turn === null) {
    leaveExercise(room);
    say(room.app, `Rater ${rater} has measured everything in this study.`);
    return;
  }
  const method = axesOf(study, rater);
  const exercise = exerciseOf({ ...turn.film, title: `Film ${turn.number}` });
  const task =
    method === null
      ? exercise.task
      : `${exercise.task} Draw both axes by ${CONSTRUCTION_WORDS[method]}, as this study asks.`;
  beginExercise(room, { ...exercise, task }, `study: ${study.title}`, { turn: { turn, rater } });
}

/** What is still missing before a turn's reading can be kept, as a sentence; null: nothing. */
export function turnLacks({ store }: Room, { session, turn }: Running): string | null {
  const reading = readingOf(session);
  if (reading === null) return 'There is no reading yet. Place both axes, then keep it.';
  const { study } = store.getState();
  const wanted = study === null || turn === null ? null : axesOf(study, turn.rater);
  if (wanted === null) return null;
  const other = reading.constructions.find((construction) => construction !== wanted);
  return other === undefined
    ? null
    : `This round is measured by ${CONSTRUCTION_WORDS[wanted]}, and an axis is drawn by ${CONSTRUCTION_WORDS[other]}. Place it again.`;
}

function readingOf({ exercise, shell }: Running['session']) {
  const found = currentAssessment(shell.store.getState()).readings.find(
    (one) => one.filmId === exercise.films[0].id && one.quantity === exercise.asked,
  );
  return found?.state === 'known' ? found : null;
}

/** Keeps the reading of a turn and shows the next film; nothing of the truth or of other raters is shown. */
export function keepTurn(room: Room, { session, turn }: Running): void {
  const { study } = room.store.getState();
  const reading = readingOf(session);
  if (study === null || turn === null || reading === null) return;
  putStudy(
    room,
    withReading(study, {
      filmId: turn.turn.film.id,
      rater: turn.rater,
      round: turn.turn.round,
      // The size of the angle: its sign hangs on a tap that a study does not ask for.
      value: Math.abs(reading.value),
      standardUncertainty: reading.standardUncertainty,
    }),
  );
  beginTurn(room, turn.rater);
}
