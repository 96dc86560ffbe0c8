import type { PhantomRay } from '../../phantom/spec.ts';
import {
  type InventedFilmRequest,
  type InventedFilmSpec,
  parseSpec,
  specErrorSentence,
} from '../../phantom/spec.ts';
import type { FilmTruth } from '../../phantom/truth.ts';
import { type Exercise, exerciseOf } from '../exercise.ts';
import type { SetFilm } from '../film-set.ts';
import { inDegrees, inMm } from '../reveal-words.ts';

/** A lesson: a short text, a film to turn the dials of, a task, and where what it says comes from. */
export interface Lesson {
  readonly id: string;
  readonly title: string;
  /** One sentence under the title. */
  readonly lead: string;
  readonly text: readonly string[];
  readonly look: Look;
  readonly task: Task;
  readonly sources: readonly string[];
}

/** The film beside the text. */
export interface Look {
  readonly spec: InventedFilmSpec;
  readonly filmSeed: number;
  readonly ray: PhantomRay;
  /** Ids of the dials that may be turned here. */
  readonly dials: readonly string[];
  /** What is told of the film while they are turned. */
  readonly facts: readonly FactId[];
  /** What to do with the dials, in a sentence. */
  readonly invitation: string;
}

export type Task =
  | { readonly kind: 'measure'; readonly words: string; readonly exercise: Exercise }
  | {
      readonly kind: 'predict';
      readonly words: string;
      readonly unit: '°' | '%' | 'mm';
      /** The right answer, and how far off still counts as right. */
      readonly answer: number;
      readonly within: number;
      /** Shown with the answer. */
      readonly because: string;
    };

export type FactId =
  | 'shown'
  | 'sideways'
  | 'forwards'
  | 'space'
  | 'rotation'
  | 'magnification'
  | 'length'
  | 'length-on-film';

/** One line of what is known of a film. */
export interface Fact {
  readonly name: string;
  readonly value: string;
}

/** What is said of a break. A sound bone is bent too, and nobody worked out how much of that lies in which plane. */
const OF_A_BREAK: ReadonlySet<FactId> = new Set(['forwards', 'sideways', 'rotation']);

/** What is known of one bone of a film, as lines beside it; of a sound bone nothing is said of a break. */
export function factsOf(truth: FilmTruth, ray: PhantomRay, wanted: readonly FactId[]): readonly Fact[] {
  const bone = truth.rays.find((one) => one.ray === ray);
  const fracture = truth.fractures.find((one) => one.ray === ray);
  if (bone === undefined) return [];
  const onFilm =
    truth.statedSpacingMm *
    Math.hypot(bone.headCentre.column - bone.base.column, bone.headCentre.row - bone.base.row);
  const facts: Readonly<Record<FactId, Fact>> = {
    shown: { name: 'Angle on this film', value: inDegrees(bone.projectedAngleDegrees) },
    forwards: { name: 'Bend from back to palm', value: inDegrees(fracture?.apexDorsalDegrees ?? 0) },
    sideways: { name: 'Bend from side to side', value: inDegrees(fracture?.apexRadialDegrees ?? 0) },
    space: { name: 'Angle in space', value: inDegrees(bone.spatialAngleDegrees) },
    rotation: { name: 'Rotation of the fragment', value: inDegrees(fracture?.axialTurnDegrees ?? 0) },
    magnification: { name: 'Magnification', value: `${((truth.magnification - 1) * 100).toFixed(1)}\u2009%` },
    length: { name: 'Length of the bone', value: inMm(bone.lengthMm) },
    'length-on-film': { name: `Base to head centre as the film states it`, value: inMm(onFilm) },
  };
  return wanted.filter((id) => fracture !== undefined || !OF_A_BREAK.has(id)).map((id) => facts[id]);
}

/** A spec that is written by us and therefore valid. */
export function lessonSpec(request: InventedFilmRequest): InventedFilmSpec {
  const parsed = parseSpec(request);
  if (!parsed.ok) throw new Error(specErrorSentence(parsed.error));
  return parsed.value;
}

/** An exercise on one film. */
export function measureTask(
  words: string,
  film: Pick<SetFilm, 'id' | 'title' | 'filmSeed' | 'ray'> & {
    readonly request: InventedFilmRequest;
  } & Partial<Pick<SetFilm, 'asked' | 'otherHand'>>,
): Task {
  const { request, asked = 'angulation', otherHand = false, ...rest } = film;
  return {
    kind: 'measure',
    words,
    exercise: { ...exerciseOf({ ...rest, asked, otherHand, spec: lessonSpec(request) }), task: words },
  };
}
