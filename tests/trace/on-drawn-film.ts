import type { TraceRequest } from '../../src/trace/request.ts';
import { trace } from '../../src/trace/trace.ts';
import type { TracedBone } from '../../src/trace/traced.ts';
import { bentBone, drawn, requestFor, tubesOf, turnedAbout } from './drawn-film.ts';

/** Traces of films drawn from formulas, as the tests of the tracer ask for them. */

export const SQUARE = { unit: 'mm', perColumn: 0.125, perRow: 0.125 } as const;
export const FILM = { widthMm: 50, heightMm: 80, noise: 10, seed: 1 } as const;

/** A trace that must be found. */
export function traced(request: TraceRequest): TracedBone {
  const result = trace(request);
  if (!result.ok) throw new Error(`expected a trace, got ${JSON.stringify(result.error)}`);
  return result.value;
}

/** A bone with nothing beside it, turned by some degrees. */
export function plain(
  turnDegrees: number,
  scale: TraceRequest['scale'] & { unit: 'mm' } = SQUARE,
): TraceRequest {
  const bone = bentBone(turnDegrees);
  return requestFor(bone, drawn({ ...FILM, scale, tubes: tubesOf(bone) }), scale);
}

const STUMP = { x: 25, y: 30 };

/** Centre and most distal point of a head of 6.5 mm, turned about the break. */
export const ballAt = (turnDegrees: number) => ({
  centre: turnedAbout({ x: 25, y: 18 }, STUMP, turnDegrees),
  top: turnedAbout({ x: 25, y: 11.5 }, STUMP, turnDegrees),
});

/** A broken neck: a ball on a short stump, turned by some degrees against the shaft. */
export function ballOnStump(turnDegrees: number): TraceRequest {
  const { centre, top } = ballAt(turnDegrees);
  const picture = drawn({
    ...FILM,
    scale: SQUARE,
    tubes: [
      { from: { x: 25, y: 72 }, to: { x: 25, y: 30.5 }, radiusMm: 4 },
      { from: STUMP, to: turnedAbout({ x: 25, y: 22 }, STUMP, turnDegrees), radiusMm: 4.4 },
    ],
    balls: [{ at: centre, radiusMm: 6.5 }],
  });
  return {
    ...requestFor({ base: { x: 25, y: 72 }, middle: STUMP, head: top }, picture, SQUARE, 0.5),
    site: 'neck',
    view: 'lateral',
  };
}
