import { cosine, sine } from './exact-maths.ts';
import { between, seededRandom } from './random.ts';

/** Extra or missing fat between the muscles at a place on the detector, mm. */
export type FatPlanes = (xMm: number, yMm: number) => number;

/** Streaks, their width from one to the next and how far they lean from the hand's length; judged by eye, mm. */
const STREAKS = 7;
const WIDTH_MM = [5, 17] as const;
const LEAN_RADIANS = 0.5;
const DEPTH_MM = 0.75;

/** Muscles lie along the hand with a little fat between them: faint streaks, so that no palm is one even grey. */
export function drawFatPlanes(filmSeed: number): FatPlanes {
  const random = seededRandom(filmSeed, 'fat between the muscles');
  const streaks = Array.from({ length: STREAKS }, () => {
    const lean = between(random, -LEAN_RADIANS, LEAN_RADIANS);
    const perMm = (2 * Math.PI) / between(random, ...WIDTH_MM);
    const phase = between(random, 0, 2 * Math.PI);
    return { x: perMm * cosine(lean), y: perMm * sine(lean), phase };
  });
  return (xMm, yMm) => {
    let sum = 0;
    for (const { x, y, phase } of streaks) sum += sine(x * xMm + y * yMm + phase);
    return DEPTH_MM * sum;
  };
}
