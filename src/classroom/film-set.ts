import { z } from 'zod';
import { firstIssue } from '../case/first-issue.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import { type InventedFilmSpec, PHANTOM_RAYS, parseSpec, specProblems } from '../phantom/spec.ts';
import { type ClassroomFileError, headOf } from './file-head.ts';

export const FILM_SET_FORMAT = 'raybend-film-set';
const FILM_SET_VERSION = 1;

/** What is to be found out on a film. */
export const ASKED = ['angulation', 'deformity'] as const;
export type Asked = (typeof ASKED)[number];

/** One film of a set: enough to draw it again, and what is asked of whoever measures it. */
export interface SetFilm {
  readonly id: string;
  readonly title: string;
  readonly spec: InventedFilmSpec;
  /** The number from which all chance of the film follows. */
  readonly filmSeed: number;
  /** The metacarpal to be measured. */
  readonly ray: (typeof PHANTOM_RAYS)[number];
  readonly asked: Asked;
  /** A film of the same person's other hand, unbroken and in the same view, goes with it. */
  readonly otherHand: boolean;
}

/** Invented films that belong together, as a teacher hands them out. */
export interface FilmSet {
  readonly id: string;
  readonly title: string;
  /** Shown above the films. */
  readonly note: string;
  /** Whether the truth may be looked at before measuring. Hidden is a courtesy: the file itself tells it. */
  readonly truth: 'hidden' | 'shown';
  readonly films: readonly SetFilm[];
}

const filmSchema = z.strictObject({
  id: z.string().min(1).max(100),
  title: z.string().max(200),
  spec: z.unknown(),
  filmSeed: z.number().int().min(0).max(4294967295),
  ray: z.enum(PHANTOM_RAYS),
  asked: z.enum(ASKED),
  otherHand: z.boolean(),
});

const setSchema = z.strictObject({
  format: z.literal(FILM_SET_FORMAT),
  version: z.literal(FILM_SET_VERSION),
  id: z.string().min(1).max(100),
  title: z.string().max(200),
  note: z.string().max(4000),
  truth: z.enum(['hidden', 'shown']),
  films: z.array(filmSchema).max(500),
});

/** The text of a set file; a film takes about 1.5 kB in it. */
export const writeFilmSet = (set: FilmSet): string =>
  `${JSON.stringify({ format: FILM_SET_FORMAT, version: FILM_SET_VERSION, ...set }, null, 1)}\n`;

/** Reads a set file: is it JSON → is it a set → is its version known → is every film one that can be drawn. */
export function readFilmSet(text: string): Result<FilmSet, ClassroomFileError> {
  const head = headOf(text, FILM_SET_FORMAT, FILM_SET_VERSION);
  if (!head.ok) return head;
  const parsed = setSchema.safeParse(head.value);
  if (!parsed.success) {
    return failure({ kind: 'invalid', ...firstIssue(parsed.error) });
  }
  const { format: _format, version: _version, films: listed, ...set } = parsed.data;
  const films: SetFilm[] = [];
  for (const [index, { spec, ...film }] of listed.entries()) {
    const checked = parseSpec(spec);
    if (!checked.ok) {
      const problem = specProblems(checked.error);
      return failure({ kind: 'invalid', path: `films.${index}.spec`, problem });
    }
    films.push({ ...film, spec: checked.value });
  }
  const twice = films.find(({ id }, index) => films.findIndex((film) => film.id === id) !== index);
  if (twice !== undefined) {
    return failure({ kind: 'invalid', path: 'films', problem: `two films are called ${twice.id}` });
  }
  return success({ ...set, films });
}

/** The same person's other hand in the same view: mirrored, nothing broken, nothing beside it but the letter. */
export const otherHandOf = (spec: InventedFilmSpec): InventedFilmSpec => ({
  ...spec,
  hand: { ...spec.hand, side: spec.hand.side === 'left' ? 'right' : 'left' },
  fractures: [],
  view: { ...spec.view, inPlaneDegrees: 0 - spec.view.inPlaneDegrees },
  extras: {
    ...spec.extras,
    splint: false,
    knownObject: null,
    // Not added where the description has none: older films keep theirs to the letter.
    ...(spec.extras.cast === undefined ? {} : { cast: false }),
    ...(spec.extras.markerGrid === undefined ? {} : { markerGrid: null }),
  },
});
