import { assess } from '../../src/case/assess.ts';
import type { CaseDocument, MarkRole, MarkShape } from '../../src/case/document.ts';
import { markId } from '../../src/case/marks.ts';
import { type Exercise, exerciseCase, exerciseOf } from '../../src/classroom/exercise.ts';
import type { SetFilm } from '../../src/classroom/film-set.ts';
import { type KnownFilm, type Reveal, reveal, unmovedSpec } from '../../src/classroom/reveal.ts';
import { type FilmPoint, filmPoint } from '../../src/geometry/units.ts';
import { type FilmPlan, truthOfPlan } from '../../src/phantom/invent.ts';
import { outlinesOfPlan } from '../../src/phantom/outlines.ts';
import type { InventedFilmRequest, InventedFilmSpec } from '../../src/phantom/spec.ts';
import { toFilm } from '../../src/phantom/to-film.ts';
import type { FilmTruth, RayTruth, TruthAxis } from '../../src/phantom/truth.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { unwrap } from '../geometry/support.ts';
import { specOf } from '../phantom/make.ts';

/** A true lateral of a broken small-finger neck in a parallel beam. */
export const NECK: InventedFilmRequest = {
  hand: { sizeDeviation: 0 },
  fractures: [{ ray: 'small', region: 'neck', level: 0.74, apexDorsalDegrees: 40 }],
  view: { turnDegrees: 90 },
  beam: { kind: 'parallel' },
};
export const SHAFT: InventedFilmRequest = {
  ...NECK,
  fractures: [{ ray: 'ring', region: 'shaft', level: 0.5, apexDorsalDegrees: 30 }],
};

const planFor = (spec: InventedFilmSpec, filmSeed: number): FilmPlan => ({ spec, filmSeed, previewScale: 1 });

export const knownFilm = (spec: InventedFilmSpec, filmSeed: number): KnownFilm => ({
  truth: truthOfPlan(planFor(spec, filmSeed)),
  outlines: outlinesOfPlan(planFor(spec, filmSeed)),
});

/** A learner in front of a film: places marks, looks at the readings, asks for the truth. */
export class Learner {
  readonly exercise: Exercise;
  readonly film: KnownFilm;
  readonly truth: FilmTruth;
  readonly bone: RayTruth;
  document: CaseDocument;

  constructor(request: InventedFilmRequest, patch: Partial<SetFilm> = {}, filmSeed = 11) {
    const spec = specOf(request);
    const ray = patch.ray ?? spec.fractures[0]?.ray ?? 'small';
    this.exercise = exerciseOf({
      id: 'one',
      title: 'one',
      spec,
      filmSeed,
      ray,
      asked: 'angulation',
      otherHand: false,
      ...patch,
    });
    this.film = knownFilm(spec, filmSeed);
    this.truth = this.film.truth;
    this.bone = this.truth.rays.find((one) => one.ray === ray)!;
    const pixels = new Uint16Array(this.truth.columns * this.truth.rows);
    const { columns, rows } = this.truth;
    const { spacing } = toFilm({ columns, rows, pixels, truth: this.truth });
    this.document = exerciseCase(
      this.exercise,
      this.exercise.films.map(() => ({ sha256: '0'.repeat(64), spacing, truth: this.truth })),
    );
  }

  get filmId() {
    return this.exercise.films[0].id;
  }

  place(role: MarkRole, shape: MarkShape): this {
    const id = markId(this.filmId, role);
    const mark = {
      kind: 'mark' as const,
      id,
      filmId: this.filmId,
      role,
      shape,
      provenance: 'placed' as const,
    };
    this.document = { ...this.document, records: { ...this.document.records, [id]: mark } };
    return this;
  }

  free(role: 'proximal-axis' | 'distal-axis', { from, to }: TruthAxis): this {
    return this.place(role, { construction: 'free', from, to });
  }

  /** Both axes where they truly are. */
  perfectly(): this {
    return this.free('proximal-axis', this.bone.proximalAxis).free('distal-axis', this.bone.distalAxis);
  }

  tapDorsal(by = 200): this {
    const { headCentre, dorsal } = this.bone;
    return this.place('dorsal-side', {
      construction: 'point',
      at: filmPoint(headCentre.column + by * dorsal.columns, headCentre.row + by * dorsal.rows),
    });
  }

  reveal(): Reveal {
    const { document, exercise, film, filmId } = this;
    const [{ spec, filmSeed }] = exercise.films;
    return unwrap(
      reveal({
        document,
        assessment: assess(document, SHIPPED_LIMIT_SETS),
        filmId,
        ray: exercise.ray,
        asked: exercise.asked,
        film,
        unmoved: knownFilm(unmovedSpec(spec), filmSeed),
      }),
    );
  }
}

/** A point some millimetres to the right of somebody walking along an axis; negative: to the left. */
export function aside(point: FilmPoint, axis: TruthAxis, mm: number, pitchMm: number): FilmPoint {
  const [x, y] = [axis.to.column - axis.from.column, axis.to.row - axis.from.row];
  const step = mm / pitchMm / Math.hypot(x, y);
  return filmPoint(point.column - y * step, point.row + x * step);
}

/** A point of an axis, from 0 at its proximal end to 1. */
export const along = ({ from, to }: TruthAxis, share: number): FilmPoint =>
  filmPoint(from.column + (to.column - from.column) * share, from.row + (to.row - from.row) * share);
