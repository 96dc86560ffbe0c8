import type { Reveal } from '../../classroom/reveal.ts';
import { inDegrees } from '../../classroom/reveal-words.ts';
import { stationsOf } from '../../classroom/true-axes.ts';
import type { Film } from '../../film/film.ts';
import { NOMINAL_PLACING_ERROR_MM } from '../../geometry/placing.ts';
import { toPlane } from '../../geometry/spacing.ts';
import { type FilmPoint, filmPoint } from '../../geometry/units.ts';
import { pictureRound } from '../../trace/picture.ts';
import type { Taps } from '../../trace/request.ts';
import { trace } from '../../trace/trace.ts';

/** What the tracer found, or why it found nothing, in a sentence. */
export interface ModelAxes {
  readonly proximal: { readonly from: FilmPoint; readonly to: FilmPoint };
  readonly distal: { readonly from: FilmPoint; readonly to: FilmPoint };
  readonly words: string;
}

/**
 * These taps lie where they truly belong, so they are taken to be as exact as a point of a mark; a person's tap is
 * taken to be half as exact (`TAP_TO_PLACING_ERROR` in `run-trace.ts`).
 */
const TAP_ERROR_MM = NOMINAL_PLACING_ERROR_MM;

/**
 * The tracer's axes of the bone that was asked for, from four taps put where they truly belong: base, both broken
 * ends, tip of the head. So it is shown at its best; a person's taps are less exact.
 */
export function modelAxes(film: Film, found: Reveal): ModelAxes | string {
  const { bone, film: known, ray } = found;
  const fracture = known.truth.fractures.find((one) => one.ray === ray);
  if (fracture === undefined) return 'The tracer reads broken bones only.';
  if (fracture.region === 'head' || fracture.region === 'base') {
    return `The tracer does not read breaks of the ${fracture.region}.`;
  }
  const taps: Taps = {
    base: bone.truth.base,
    proximalEnd: fracture.proximalBrokenEnd,
    distalEnd: fracture.distalBrokenEnd,
    headEnd: headEnd(found),
  };
  const picture = pictureRound(film, Object.values(taps), bone.scale);
  if (picture === null) return 'The tracer found no film under the bone.';
  const traced = trace({
    picture,
    scale: bone.scale,
    taps,
    tapErrorMm: TAP_ERROR_MM,
    site: fracture.region,
    view: known.truth.view,
    brackets: [],
    corrections: [],
  });
  if (!traced.ok) return 'The tracer could not tell the outlines of this bone apart and gives no reading.';
  const { proximal, distal, turnDegrees, interval, sure } = traced.value;
  const half = (interval.to - interval.from) / 2;
  const off = Math.abs(Math.abs(turnDegrees) - bone.truth.projectedAngleDegrees);
  return {
    proximal: proximal.axis,
    distal: distal.axis,
    words: `The tracer, given four taps at the true places, reads ${inDegrees(Math.abs(turnDegrees))}\u202f±\u202f${inDegrees(half)}${sure ? '' : ' and says it is not sure'}. It is off by ${inDegrees(off)} from the line through the middle of the bone.`,
  };
}

/** The most distal point of the head: from the broken end through the head's centre to its rim. */
function headEnd({ bone }: Reveal): FilmPoint {
  const { headCentre, headRadiusPixels } = bone.truth;
  const [end] = stationsOf(bone, 'distal');
  const from = toPlane(end?.middle ?? bone.truth.distalAxis.from, bone.scale);
  const to = toPlane(headCentre, bone.scale);
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return filmPoint(
    headCentre.column + (headRadiusPixels * (to.x - from.x)) / length,
    headCentre.row + (headRadiusPixels * (to.y - from.y)) / length,
  );
}
