import { EDGE_FEATURES, edgeProfile, NO_EDGES } from './edge-profile.ts';
import { findHeads, type HeadCircle } from './head.ts';
import { directionOf, type Hypothesis } from './hypothesis.ts';
import { findOutlines, type Outline, type Pin, type Rise, type Stretch } from './outlines.ts';
import { acrossOnLine, type FrameLine, type Pair, pairUp } from './pairs.ts';
import type { BonePicture } from './picture.ts';
import type { FrameBracket, FramePins } from './shaft.ts';
import {
  cutStrip,
  type Frame,
  inFrame,
  type MmScale,
  NECK_SMOOTHING_MM,
  rowAt,
  type Strip,
} from './strip.ts';

/** What is known of a distal fragment that is little more than the head. */
export interface NeckSearch {
  /** From the middle of the broken end to the head's end. */
  readonly frame: Frame;
  readonly tapErrorMm: number;
  readonly brackets: readonly FrameBracket[];
  readonly pins: FramePins;
}

const MOST_HEADS = 6;
const MOST_OUTLINES = 10;
const MOST_PAIRS = 5;
/** Error of the centre of a found head, and of the stump's middle as two found outlines of the neck give it, mm. */
const CENTRE_ERROR_MM = 0.2;
const MIDDLE_ERROR_MM = 0.35;
/** So much neck has to stand out of the head for its outlines to be looked for, mm. */
const LEAST_NECK_MM = 0.5;
const USUAL_RADIUS_MM = 6.6;

/** Squared misfits count no further than this. */
const MOST_MISFIT = 25;

/** Place of the number that says an account follows nothing; the learned profile of the edges comes after it. */
const FOLLOWS_NOTHING = 11;
export const NECK_FEATURES = FOLLOWS_NOTHING + 1 + EDGE_FEATURES;

/** One place the axis passes by, with its error. */
interface Station {
  readonly alongMm: number;
  readonly acrossMm: number;
  readonly errorMm: number;
}

/** Weighted straight line, the variance of its lean, and how far the stations lie from it together. */
function lineThrough(stations: readonly Station[]): { line: FrameLine; variance: number; misfit: number } {
  let sw = 0;
  let ss = 0;
  let sa = 0;
  for (const { alongMm, acrossMm, errorMm } of stations) {
    const weight = 1 / (errorMm * errorMm);
    sw += weight;
    ss += weight * alongMm;
    sa += weight * acrossMm;
  }
  const middle = ss / sw;
  const at = sa / sw;
  let spread = 0;
  let mixed = 0;
  for (const { alongMm, acrossMm, errorMm } of stations) {
    const weight = 1 / (errorMm * errorMm);
    spread += weight * (alongMm - middle) ** 2;
    mixed += weight * (alongMm - middle) * (acrossMm - at);
  }
  const lean = spread > 0 ? mixed / spread : 0;
  let misfit = 0;
  for (const { alongMm, acrossMm, errorMm } of stations) {
    misfit += ((acrossMm - at - lean * (alongMm - middle)) / errorMm) ** 2;
  }
  return { line: { alongMm: middle, acrossMm: at, lean }, variance: spread > 0 ? 1 / spread : 1, misfit };
}

/** The accounts of a head fragment; the last rests on the taps alone. */
export function neckHypotheses(
  picture: BonePicture,
  scale: MmScale,
  search: NeckSearch,
): { readonly hypotheses: Hypothesis[]; readonly strip: Strip } {
  const { frame, tapErrorMm } = search;
  const heads = findHeads(picture, scale, frame, MOST_HEADS);
  const strip = cutStrip(picture, scale, frame, -4, frame.lengthMm, NECK_SMOOTHING_MM);
  const hypotheses: Hypothesis[] = [];
  const cache = new Map<number, Pair[]>();
  for (const head of heads) {
    const centre = inFrame(frame, head.centre);
    if (centre.along < 2.5 || Math.abs(Math.atan2(centre.across, centre.along)) > 0.6) continue;
    const neckEnd = Math.round(Math.max(4, centre.along - 0.62 * head.radiusMm) * 2) / 2;
    // Where the stump lies within the head's outline, outlines near it are the head's own.
    const open = centre.along >= head.radiusMm + LEAST_NECK_MM;
    let pairs = open ? cache.get(neckEnd) : [];
    if (pairs === undefined) {
      pairs = neckPairs(strip, neckEnd, search);
      cache.set(neckEnd, pairs);
    }
    for (const pair of [...pairs, null]) hypotheses.push(account(search, strip, neckEnd, head, pair));
  }
  const features = new Array<number>(NECK_FEATURES).fill(0);
  features[FOLLOWS_NOTHING] = 1;
  hypotheses.push({
    frame,
    line: { alongMm: frame.lengthMm / 2, acrossMm: 0, lean: 0 },
    direction: directionOf(frame, 0),
    leverVariance: 0,
    unevenVariance: 0,
    tapVariance: (2 * tapErrorMm * tapErrorMm) / (frame.lengthMm * frame.lengthMm) + 0.03 ** 2,
    features,
    pair: null,
    strip: null,
    stretch: null,
    head: null,
  });
  return { hypotheses, strip };
}

function stretchOf(strip: Strip, neckEnd: number): Stretch {
  return {
    first: Math.round(rowAt(strip, 0.75)),
    last: Math.min(strip.rows - 1, Math.round(rowAt(strip, neckEnd))),
  };
}

function neckPairs(strip: Strip, neckEnd: number, search: NeckSearch): Pair[] {
  const stretch = stretchOf(strip, neckEnd);
  const aside = 2.5 * search.tapErrorMm + 0.8;
  const outlinesOf = (rise: Rise): Outline[] => {
    const side = rise === 1 ? 'one' : 'other';
    const pins = search.pins[side].map(
      ({ alongMm, across }): Pin => ({ row: rowAt(strip, alongMm), across }),
    );
    const range = rise === 1 ? { from: -7 - aside, to: -2.5 + aside } : { from: 2.5 - aside, to: 7 + aside };
    return findOutlines(strip, rise, stretch, { ...range, mostLean: 2 }, [], pins, MOST_OUTLINES);
  };
  const others = outlinesOf(-1);
  const found = outlinesOf(1).flatMap((one) =>
    others.flatMap((other) => {
      const pair = pairUp(strip, stretch, one, other);
      return pair === null ? [] : [{ pair, score: pairScore(pair, search) }];
    }),
  );
  return found
    .sort((p, q) => q.score - p.score)
    .slice(0, MOST_PAIRS)
    .map(({ pair }) => pair);
}

const pairScore = (pair: Pair, { tapErrorMm }: NeckSearch): number =>
  pair.one.meanStrength +
  pair.other.meanStrength +
  0.5 * Math.min(pair.one.meanStrength, pair.other.meanStrength) -
  0.12 * Math.min(12, acrossOnLine(pair.line, 0) ** 2 / (tapErrorMm ** 2 + 0.16)) -
  0.12 * ((pair.widthMm - 9.6) / 1.6) ** 2;

function account(
  search: NeckSearch,
  strip: Strip,
  neckEnd: number,
  head: HeadCircle,
  pair: Pair | null,
): Hypothesis {
  const { frame, tapErrorMm, brackets } = search;
  const centre = inFrame(frame, head.centre);
  const stations: Station[] = [
    { alongMm: centre.along, acrossMm: centre.across, errorMm: CENTRE_ERROR_MM },
    { alongMm: 0, acrossMm: 0, errorMm: Math.hypot(tapErrorMm, 0.2) },
    { alongMm: frame.lengthMm, acrossMm: 0, errorMm: Math.hypot(tapErrorMm, 0.5) },
  ];
  for (const { alongMm, one, other } of brackets) {
    stations.push({
      alongMm,
      acrossMm: (one + other) / 2,
      errorMm: Math.hypot(tapErrorMm / Math.SQRT2, 0.3),
    });
  }
  if (pair !== null) {
    // Where the outlines' middle line meets the break. Farther on the neck bends, and its middle lies aside of
    // the line from the stump to the head: by 0.15 mm in half its length, which is 1° of the axis.
    stations.push({ alongMm: 0, acrossMm: acrossOnLine(pair.line, 0), errorMm: MIDDLE_ERROR_MM });
  }
  const { line, variance, misfit } = lineThrough(stations);
  const rim = centre.along + head.radiusMm - frame.lengthMm;
  const features = [
    head.strength,
    ((head.radiusMm - USUAL_RADIUS_MM) / 1.1) ** 2,
    Math.min(16, (rim * rim) / (tapErrorMm * tapErrorMm + 0.3 * 0.3)),
    Math.min(MOST_MISFIT, misfit),
    pair === null ? 1 : 0,
    pair === null ? 0 : pair.one.meanStrength + pair.other.meanStrength,
    pair === null ? 0 : Math.min(pair.one.meanStrength, pair.other.meanStrength),
    pair === null ? 0 : Math.min(9, ((pair.widthMm / head.radiusMm - 1.42) / 0.2) ** 2),
    pair === null ? 0 : pair.roughnessMm,
    pair === null ? 0 : Math.min(9, ((acrossOnLine(pair.line, centre.along) - centre.across) / 1.2) ** 2),
    head.radiusMm < 5 ? 1 : 0,
    0,
    ...(pair === null ? NO_EDGES : edgeProfile(strip, stretchOf(strip, neckEnd), pair)),
  ];
  return {
    frame,
    line,
    direction: directionOf(frame, line.lean),
    leverVariance: pair === null ? 0 : variance,
    unevenVariance: variance * Math.min(MOST_MISFIT, misfit),
    tapVariance: pair === null ? variance : 0,
    features,
    pair,
    strip: pair === null ? null : strip,
    stretch: pair === null ? null : stretchOf(strip, neckEnd),
    head,
  };
}
