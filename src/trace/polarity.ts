import { type Result, success } from '../geometry/result.ts';
import { CALIBRATION, type FragmentCalibration } from './calibration.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { BonePicture } from './picture.ts';
import type { TraceRequest } from './request.ts';
import { type BoneSearch, type FragmentSearch, searchBone } from './search.ts';
import { COLUMNS, columnAt, type Strip } from './strip.ts';
import type { TraceFailure } from './traced.ts';
import { scoreOf } from './weigh.ts';

/** What was found, and whether it was found on the picture turned over. */
export interface EitherWay {
  readonly search: BoneSearch;
  /** How plainly the picture is a negative; `no` where it was searched as given. */
  readonly negative: 'no' | 'thinly' | 'plainly';
}

/** From this contrast on nobody needs to look at the picture the other way round. */
const PLAIN_CONTRAST = 1.2;
/** Weight of the contrast beside the scores: with it, all of 240 films of the trial setting told rightly. */
const CONTRAST_WEIGHT = 3;
/**
 * Evidence against the picture as it is given before it is turned over, and before that is plain. Of 210 negatives of
 * the trial setting none had less than 2.9 and five less than 5; one picture that was none had 4.
 */
const LEAST_EVIDENCE = 2.5;
const PLAIN_EVIDENCE = 5;

/**
 * Searches a picture on which bone should be bright; where it looks as if bone were dark, as on a screenshot of a
 * negative, the picture turned over as well, and gives the likelier of the two.
 */
export function searchEitherWay(request: TraceRequest): Result<EitherWay, TraceFailure> {
  const given = searchBone(request);
  if (!given.ok) return given;
  const contrast = contrastOf(given.value.proximal.strip) + contrastOf(given.value.distal.strip);
  const asGiven = { ok: true, value: { search: given.value, negative: 'no' } } as const;
  if (contrast >= PLAIN_CONTRAST) return asGiven;
  const turned = searchBone({ ...request, picture: turnedOver(request.picture) });
  if (!turned.ok) return asGiven;
  const evidence =
    bestScore(request, given.value) - bestScore(request, turned.value) + CONTRAST_WEIGHT * contrast;
  if (evidence >= -LEAST_EVIDENCE) return asGiven;
  return success({ search: turned.value, negative: evidence < -PLAIN_EVIDENCE ? 'plainly' : 'thinly' });
}

const turnedOver = ({ values, least, greatest, ...rest }: BonePicture): BonePicture => ({
  ...rest,
  values: values.map((value) => -value),
  least: -greatest,
  greatest: -least,
});

/** Places that are the bone's own if the taps are right, and places beside it, mm from the tapped line. */
const WITHIN_MM = 3;
const BESIDE_MM = { from: 5, to: 11 } as const;

/** How much brighter it is along the tapped line than beside it, in usual slopes. */
function contrastOf({ values, rows, usualSlope }: Strip): number {
  if (usualSlope === 0) return 0;
  const mean = (from: number, to: number): number => {
    let sum = 0;
    let count = 0;
    for (const side of [-1, 1]) {
      const ends = [Math.round(columnAt(side * from)), Math.round(columnAt(side * to))];
      const last = Math.min(COLUMNS - 1, Math.max(...ends));
      for (let column = Math.max(0, Math.min(...ends)); column <= last; column += 1) {
        for (let row = 0; row < rows; row += 1) sum += values[row * COLUMNS + column]!;
        count += rows;
      }
    }
    return sum / count;
  };
  return (mean(0, WITHIN_MM) - mean(BESIDE_MM.from, BESIDE_MM.to)) / (2 * usualSlope);
}

function bestScore({ site }: TraceRequest, { proximal, distal }: BoneSearch): number {
  const far = site === 'neck' ? CALIBRATION.neck : CALIBRATION.distal;
  return best(proximal, CALIBRATION.proximal) + best(distal, far);
}

/** The best account that follows something on the film. */
const best = ({ hypotheses }: FragmentSearch, calibration: FragmentCalibration): number =>
  Math.max(
    NOTHING_FOUND,
    ...hypotheses.filter(followsSomething).map((account) => scoreOf(account, calibration)),
  );

/** Worse than any score seen. */
const NOTHING_FOUND = -20;

const followsSomething = ({ pair, head }: Hypothesis): boolean => pair !== null || head !== null;
