import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Attempt } from '../../classroom/attempts.ts';
import type { Exercise } from '../../classroom/exercise.ts';
import { FRAMES } from '../../classroom/film-dials.ts';
import type { Asked, FilmSet } from '../../classroom/film-set.ts';
import type { Study, Turn } from '../../classroom/study.ts';
import { defaultSpec } from '../../phantom/default-specs.ts';
import type { InventedFilmSpec, PhantomRay } from '../../phantom/spec.ts';
import type { Shell } from '../shell.ts';
import { FilmMaker } from './film-maker.ts';
import type { Demonstrated } from './keepsake.ts';
import { keptAttempts, keptSet, keptStudy } from './kept-here.ts';
import type { Session } from './session.ts';

export type RoomPage = 'lessons' | 'films' | 'exercises' | 'demonstration' | 'agreement';

/** The film on the film maker's bench. */
export interface Draft {
  readonly spec: InventedFilmSpec;
  readonly filmSeed: number;
  readonly ray: PhantomRay;
  readonly asked: Asked;
  readonly otherHand: boolean;
}

/** An exercise on the plate, and where it goes back to. */
export interface Running {
  readonly session: Session;
  /** What attempts at it are filed under. */
  readonly from: string;
  /** The exercises that follow, for a set worked through one by one. */
  readonly following: readonly Exercise[];
  /** Whether the truth may be looked at before measuring, as the set says. */
  readonly truthOpen: boolean;
  /** Where it is a turn in a study: blinded, and kept as a reading. */
  readonly turn: { readonly turn: Turn; readonly rater: string } | null;
}

/** All that the classroom holds while the app is open. */
export interface RoomState {
  readonly page: RoomPage;
  readonly lessonId: string | null;
  readonly draft: Draft;
  readonly truthShown: boolean;
  readonly set: FilmSet;
  readonly running: Running | null;
  readonly attempts: readonly Attempt[];
  readonly study: Study | null;
  /** What a demonstration is given on. */
  readonly demonstrated: Demonstrated | null;
}

export interface Room {
  readonly store: StoreApi<RoomState>;
  readonly maker: FilmMaker;
  readonly app: Shell;
}

export const EMPTY_SET: FilmSet = { id: 'set', title: '', note: '', truth: 'hidden', films: [] };

const firstDraft = (): Draft => {
  const spec = defaultSpec('small-neck-lateral');
  return {
    spec: { ...spec, film: { ...spec.film, ...FRAMES.hand } },
    filmSeed: 20,
    ray: 'small',
    asked: 'angulation',
    otherHand: false,
  };
};

const rooms = new WeakMap<Shell, Room>();

/** The classroom of this page; made when it is first entered, and the same one when it is entered again. */
export function roomOf(app: Shell): Room {
  const before = rooms.get(app);
  if (before !== undefined) return before;
  const store = createStore<RoomState>(() => ({
    page: 'lessons',
    lessonId: null,
    draft: firstDraft(),
    truthShown: true,
    set: keptSet() ?? { ...EMPTY_SET, id: app.newId() },
    running: null,
    attempts: keptAttempts(),
    study: keptStudy(),
    demonstrated: null,
  }));
  const room: Room = { store, maker: new FilmMaker(), app };
  rooms.set(app, room);
  return room;
}
