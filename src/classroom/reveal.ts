import type { Assessment } from '../case/assessment.ts';
import { axisPoints } from '../case/axes.ts';
import type { CaseDocument, MarkShape, RecordId } from '../case/document.ts';
import { type MarkedFilm, markedFilm } from '../case/film-marks.ts';
import type { KnownReading } from '../case/reading.ts';
import { type Axis, axisLength, stationOf, turnBetween } from '../geometry/axis.ts';
import { type AxisPoints, axisFrom, controlPoints } from '../geometry/constructions.ts';
import { studentProbability } from '../geometry/distributions.ts';
import { orientPair } from '../geometry/orient.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import { planeScale } from '../geometry/spacing.ts';
import type { BoneOutline } from '../phantom/outlines.ts';
import { type InventedFilmSpec, PHANTOM_RAYS, type PhantomRay } from '../phantom/spec.ts';
import type { FilmTruth } from '../phantom/truth.ts';
import type { Asked } from './film-set.ts';
import {
  alike,
  type FragmentName,
  type KnownBone,
  type Stretch,
  stretchOf,
  type TrueAxisBy,
  trueAxis,
} from './true-axes.ts';

/** All that is known of one film: its truth and where every bone's edges fall. */
export interface KnownFilm {
  readonly truth: FilmTruth;
  readonly outlines: Readonly<Record<PhantomRay, BoneOutline>>;
}

export interface RevealInput {
  readonly document: CaseDocument;
  readonly assessment: Assessment;
  readonly filmId: RecordId;
  readonly ray: PhantomRay;
  readonly asked: Asked;
  readonly film: KnownFilm;
  /** The same hand in the same view with its fragments where they were before the injury: `unmovedSpec`. */
  readonly unmoved: KnownFilm;
}

/** One placed axis against the true one. */
export interface AxisError {
  readonly fragment: FragmentName;
  readonly placed: Axis;
  readonly points: AxisPoints;
  readonly trueAxis: Axis;
  readonly trueBy: TrueAxisBy;
  /** What the axis adds to the reading, degrees: the two of them together are the whole error of the angle. */
  readonly addsDegrees: number;
  /** How far its two ends lie from the true line, mm; positive towards `side`. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly lengthMm: number;
  readonly trueLengthMm: number;
}

export interface Reveal {
  readonly filmId: RecordId;
  readonly ray: PhantomRay;
  readonly asked: Asked;
  readonly reading: KnownReading;
  /** As the reading gives it, with the sign the placed axes have where no side was tapped. */
  readonly value: number;
  /** What the same lines, drawn without error, give on this film; the same sign rule. */
  readonly truth: number;
  /** value − truth. */
  readonly error: number;
  readonly verdict: 'inside' | 'outside';
  /** Share of readings with an error as large or larger, if the stated uncertainty were right. */
  readonly chance: number;
  readonly proximal: AxisError;
  readonly distal: AxisError;
  /** Angle of the bone before the injury, drawn with the same lines on this film. */
  readonly normal: number;
  /** The normal that was taken off; null where an angle was asked. */
  readonly normalTaken: KnownReading | null;
  /** Degrees that a wrongly tapped side adds; 0 where it is right or not tapped. */
  readonly sideAdds: number;
  /** The side that positive angles point to. */
  readonly side: 'dorsal' | 'radial';
  readonly bone: KnownBone;
  readonly neighbours: readonly (readonly [PhantomRay, KnownBone])[];
  readonly film: KnownFilm;
}

export interface NotMeasured {
  readonly kind: 'not-measured';
  /** What is missing and what to do, as a sentence. */
  readonly lacks: string;
}

/** The spec with every fragment of it back in its place, to see what the bone was like before. */
export const unmovedSpec = (spec: InventedFilmSpec): InventedFilmSpec => ({
  ...spec,
  fractures: spec.fractures.map((fracture) => ({
    ...fracture,
    angleMeaning: 'fragment-turn',
    apexDorsalDegrees: 0,
    apexRadialDegrees: 0,
    axialTurnDegrees: 0,
    shorteningMm: 0,
    translationDorsalMm: 0,
    translationRadialMm: 0,
  })),
});

/**
 * Compares what was measured with what is true.
 *
 * Fails with `not-measured` while the reading that was asked for is missing.
 */
export function reveal(input: RevealInput): Result<Reveal, NotMeasured> {
  const { document, assessment, filmId, ray, asked, film, unmoved } = input;
  const reading = knownReading(assessment, filmId, asked);
  const marked = markedFilm(document, filmId);
  const placed = marked === null ? null : placedAxes(marked);
  if (reading === null || marked === null || placed === null) {
    const missing = assessment.readings.find((one) => one.filmId === filmId && one.quantity === asked);
    const lacks = missing?.state === 'missing' ? missing.lacks : 'Place both axes first.';
    return failure({ kind: 'not-measured', lacks });
  }
  const scale = planeScale(marked.film.spacing);
  const known = (from: KnownFilm, of: PhantomRay): KnownBone => ({
    truth: from.truth.rays.find((candidate) => candidate.ray === of)!,
    outline: from.outlines[of],
    scale,
  });
  const bone = known(film, ray);
  const side = marked.film.view === 'pa' ? 'radial' : 'dorsal';
  const stretches = {
    proximal: stretchOf(bone, 'proximal', placed.proximal.points),
    distal: stretchOf(bone, 'distal', placed.distal.points),
  };
  const trueAxes = axesFor(bone, placed, stretches);
  const turnedRight = {
    proximal: alike(placed.proximal.axis, trueAxes.proximal.axis),
    distal: alike(placed.distal.axis, trueAxes.distal.axis),
  };
  const sense = senseOf(trueAxes.proximal.axis, bone.truth[side]);
  const truthAngle = sense * turnBetween(trueAxes.proximal.axis, trueAxes.distal.axis);
  const placedAngle = sense * turnBetween(turnedRight.proximal, turnedRight.distal);
  const soundAxes = axesFor(known(unmoved, ray), placed, stretches);
  const normal = sense * turnBetween(soundAxes.proximal.axis, soundAxes.distal.axis);

  const angle = asked === 'angulation' ? reading : knownReading(assessment, filmId, 'angulation');
  // Without a tapped side a reading has no sign; the axes themselves know which way they bend.
  const signed = (one: KnownReading): number => (one.signed ? one.value : Math.sign(placedAngle) * one.value);
  const sideAdds = angle?.signed ? angle.value - placedAngle : 0;
  const value = asked === 'angulation' ? signed(reading) : reading.value;
  const truth = asked === 'angulation' ? truthAngle : truthAngle - normal;
  const error = value - truth;
  const errorOf = (fragment: FragmentName): AxisError => {
    const own = turnedRight[fragment];
    const { axis, by } = trueAxes[fragment];
    const towards = -senseOf(axis, bone.truth[side]);
    return {
      fragment,
      placed: own,
      points: placed[fragment].points,
      trueAxis: axis,
      trueBy: by,
      addsDegrees: (fragment === 'proximal' ? -sense : sense) * turnBetween(axis, own),
      fromMm: towards * stationOf(own.from, axis).across,
      toMm: towards * stationOf(own.to, axis).across,
      lengthMm: axisLength(own),
      trueLengthMm: axisLength(axis),
    };
  };
  return success({
    filmId,
    ray,
    asked,
    reading,
    value,
    truth,
    error,
    verdict: Math.abs(error) <= reading.expandedUncertainty ? 'inside' : 'outside',
    chance: 2 * studentProbability(-Math.abs(error) / reading.standardUncertainty, reading.degreesOfFreedom),
    proximal: errorOf('proximal'),
    distal: errorOf('distal'),
    normal,
    normalTaken: asked === 'deformity' ? knownReading(assessment, filmId, 'normal') : null,
    sideAdds: Math.abs(sideAdds) < 1 ? 0 : sideAdds,
    side,
    bone,
    neighbours: PHANTOM_RAYS.filter((other) => other !== ray).map(
      (other) => [other, known(film, other)] as const,
    ),
    film,
  });
}

function knownReading(
  assessment: Assessment,
  filmId: RecordId,
  quantity: Asked | 'normal',
): KnownReading | null {
  const found = assessment.readings.find((one) => one.filmId === filmId && one.quantity === quantity);
  return found?.state === 'known' ? found : null;
}

interface PlacedAxis {
  readonly points: AxisPoints;
  readonly axis: Axis;
}

type Both<Value> = Readonly<Record<FragmentName, Value>>;

/** The axes as they were placed, run from proximal to distal; null while one is missing. */
function placedAxes({ film, marks }: MarkedFilm): Both<PlacedAxis> | null {
  const scale = planeScale(film.spacing);
  const pointsOf = (shape: MarkShape | undefined) => (shape === undefined ? null : axisPoints(shape, scale));
  const [proximal, distal] = [pointsOf(marks['proximal-axis']?.shape), pointsOf(marks['distal-axis']?.shape)];
  if (proximal === null || distal === null) return null;
  const pair = orientPair(
    axisFrom(proximal, controlPoints(proximal)),
    axisFrom(distal, controlPoints(distal)),
  );
  return {
    proximal: { points: proximal, axis: pair.proximal },
    distal: { points: distal, axis: pair.distal },
  };
}

const axesFor = (bone: KnownBone, placed: Both<PlacedAxis>, stretches: Both<Stretch>) => ({
  proximal: trueAxis(bone, 'proximal', placed.proximal.points.construction, stretches.proximal),
  distal: trueAxis(bone, 'distal', placed.distal.points.construction, stretches.distal),
});

/** +1 where a clockwise turn tilts the distal part away from the side, which is the positive sense of an angle. */
function senseOf({ from, to }: Axis, side: { readonly columns: number; readonly rows: number }): 1 | -1 {
  // To the right of somebody walking along the axis is (−y, x), since rows run down.
  const right = -(to.y - from.y) * side.columns + (to.x - from.x) * side.rows;
  return right > 0 ? -1 : 1;
}
