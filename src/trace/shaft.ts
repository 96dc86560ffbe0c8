import { EDGE_FEATURES, edgeProfile } from './edge-profile.ts';
import { evidenceAlong, type OutlineEvidence } from './evidence.ts';
import { directionOf, type Hypothesis } from './hypothesis.ts';
import { bothTables, findOutlines, type Outline, type Pin, type Rise, type Stretch } from './outlines.ts';
import { acrossOnLine, type Pair, pairUp } from './pairs.ts';
import type { BonePicture } from './picture.ts';
import type { TraceView } from './request.ts';
import {
  alongAt,
  cutStrip,
  type Frame,
  HALF_WIDTH_MM,
  type MmScale,
  rowAt,
  SHAFT_SMOOTHING_MM,
  type Strip,
} from './strip.ts';
import { tubeLikeness } from './tube-likeness.ts';

/** A tapped pair of outline points in a fragment's frame. */
export interface FrameBracket {
  readonly alongMm: number;
  readonly one: number;
  readonly other: number;
}

/** Points that the outlines have to run through, in a fragment's frame. */
export interface FramePins {
  readonly one: readonly { readonly alongMm: number; readonly across: number }[];
  readonly other: readonly { readonly alongMm: number; readonly across: number }[];
}

/** What is known of a tubular fragment before its outlines are looked for. */
export interface ShaftSearch {
  readonly frame: Frame;
  readonly end: 'proximal' | 'distal';
  /** The stretch whose mid-points make the axis, mm along the frame. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly tapErrorMm: number;
  readonly view: TraceView;
  readonly brackets: readonly FrameBracket[];
  readonly pins: FramePins;
}

const MOST_OUTLINES = 24;
const MOST_PAIRS = 14;
/** How far beyond the break the strip reaches, to see whether an outline runs on, mm. */
const BEYOND_MM = 8;
/**
 * The axis passes a tap by about this much, mm, however well the tap is placed: at the break a little, at the
 * base by the bow of the shaft, at the head's end by the tilt of the neck as well.
 */
const AIM_MM = {
  pa: { break: 0.4, base: 0.7, head: 0.8 },
  oblique: { break: 0.5, base: 1, head: 1.5 },
  lateral: { break: 0.5, base: 1.2, head: 1.8 },
} as const;

/** Place of the number that says an account follows nothing; the learned profile of the edges comes after it. */
const FOLLOWS_NOTHING = 20;
export const SHAFT_FEATURES = FOLLOWS_NOTHING + 1 + EDGE_FEATURES;

/** The accounts of a tubular fragment, in no order; the last is that none of the outlines found is the bone's. */
export function shaftHypotheses(
  picture: BonePicture,
  scale: MmScale,
  search: ShaftSearch,
): { readonly hypotheses: Hypothesis[]; readonly strip: Strip } {
  const { frame, end, fromMm, toMm, tapErrorMm } = search;
  const breakIsLast = end === 'proximal';
  const strip = cutStrip(
    picture,
    scale,
    frame,
    breakIsLast ? fromMm : fromMm - BEYOND_MM,
    breakIsLast ? toMm + BEYOND_MM : toMm,
    SHAFT_SMOOTHING_MM,
  );
  const stretch: Stretch = {
    first: Math.max(0, Math.round(rowAt(strip, fromMm))),
    last: Math.min(strip.rows - 1, Math.round(rowAt(strip, toMm))),
  };
  const half = (toMm - fromMm) / 2;
  const mostLean = Math.min(4.5, (4.2 * tapErrorMm * half) / frame.lengthMm + 0.6);
  const aside = 3 * tapErrorMm + 0.5;
  const outlinesOf = (rise: Rise): Outline[] => {
    const range =
      rise === 1
        ? { from: -7.5 - aside, to: -2 + aside, mostLean }
        : { from: 2 - aside, to: 7.5 + aside, mostLean };
    const side = rise === 1 ? 'one' : 'other';
    const pins = search.pins[side].map(
      ({ alongMm, across }): Pin => ({ row: rowAt(strip, alongMm), across }),
    );
    return findOutlines(
      strip,
      rise,
      stretch,
      { ...range, from: Math.max(range.from, -HALF_WIDTH_MM + 1), to: Math.min(range.to, HALF_WIDTH_MM - 1) },
      seedsOf(strip, stretch, search.brackets, side),
      pins,
      MOST_OUTLINES,
    );
  };
  const tables = bothTables(strip);
  const ones = outlinesOf(1);
  const others = outlinesOf(-1);
  const onesEvidence = ones.map((outline) =>
    evidenceAlong(strip, stretch, 1, outline, tables.falling, tables.rising, breakIsLast),
  );
  const othersEvidence = others.map((outline) =>
    evidenceAlong(strip, stretch, -1, outline, tables.rising, tables.falling, breakIsLast),
  );
  const found: { pair: Pair; one: OutlineEvidence; other: OutlineEvidence; first: number }[] = [];
  ones.forEach((one, i) => {
    others.forEach((other, j) => {
      const pair = pairUp(strip, stretch, one, other);
      if (pair === null) return;
      const first =
        one.meanStrength +
        other.meanStrength +
        0.5 * Math.min(one.meanStrength, other.meanStrength) -
        0.12 * widthSquare(pair) -
        0.12 * tapSquares(pair, search).reduce((sum, square) => sum + Math.min(square, 12), 0) -
        0.12 * bracketSquare(pair, strip, stretch, search);
      found.push({ pair, one: onesEvidence[i]!, other: othersEvidence[j]!, first });
    });
  });
  found.sort((p, q) => q.first - p.first);
  const leverVariance = 12 / (toMm - fromMm) ** 2;
  const hypotheses = found.slice(0, MOST_PAIRS).map(
    ({ pair, one, other }): Hypothesis => ({
      frame,
      line: pair.line,
      direction: directionOf(frame, pair.line.lean),
      leverVariance,
      unevenVariance: leverVariance * pair.roughnessMm ** 2,
      tapVariance: 0,
      features: features(pair, one, other, strip, stretch, search),
      pair,
      strip,
      stretch,
      head: null,
    }),
  );
  hypotheses.push(tappedLine(search));
  return { hypotheses, strip };
}

function seedsOf(
  strip: Strip,
  stretch: Stretch,
  brackets: readonly FrameBracket[],
  side: 'one' | 'other',
): Float64Array[] {
  const sorted = [...brackets].sort((p, q) => p.alongMm - q.alongMm);
  const first = sorted[0];
  const last = sorted.at(-1);
  if (first === undefined || last === undefined) return [];
  const rows = stretch.last - stretch.first + 1;
  const run = Math.max(1, last.alongMm - first.alongMm);
  return [
    Float64Array.from({ length: rows }, (_, i) => {
      const share = (alongAt(strip, stretch.first + i) - first.alongMm) / run;
      return first[side] + share * (sorted.length > 1 ? last[side] - first[side] : 0);
    }),
  ];
}

const widthSquare = ({ widthMm }: Pair): number => ((widthMm - 8.4) / 1.4) ** 2;

/** Squared distances of the axis from the tap at the break and from the one at the joint, in units of what is usual. */
function tapSquares(
  { line }: Pair,
  { frame, tapErrorMm, view, end }: ShaftSearch,
): readonly [number, number] {
  const aims = AIM_MM[view];
  const variance = tapErrorMm * tapErrorMm;
  const start = acrossOnLine(line, 0) ** 2;
  const finish = acrossOnLine(line, frame.lengthMm) ** 2;
  return end === 'proximal'
    ? [finish / (variance + aims.break ** 2), start / (variance + aims.base ** 2)]
    : [start / (variance + aims.break ** 2), finish / (variance + aims.head ** 2)];
}

function bracketSquare(
  pair: Pair,
  strip: Strip,
  stretch: Stretch,
  { brackets, tapErrorMm }: ShaftSearch,
): number {
  const variance = tapErrorMm * tapErrorMm + 0.3 * 0.3;
  let sum = 0;
  for (const bracket of brackets) {
    const row = Math.max(
      0,
      Math.min(pair.one.across.length - 1, Math.round(rowAt(strip, bracket.alongMm)) - stretch.first),
    );
    sum += (pair.one.across[row]! - bracket.one) ** 2 + (pair.other.across[row]! - bracket.other) ** 2;
  }
  return Math.min(60, sum / variance);
}

function features(
  pair: Pair,
  one: OutlineEvidence,
  other: OutlineEvidence,
  strip: Strip,
  stretch: Stretch,
  search: ShaftSearch,
): number[] {
  const { meanStrength: a } = pair.one;
  const { meanStrength: b } = pair.other;
  const [atBreak, atJoint] = tapSquares(pair, search);
  const breakIsLast = search.end === 'proximal';
  let both = 0;
  const rows = pair.one.across.length;
  for (let i = 0; i < rows; i += 1) {
    if (pair.one.strength[i]! > 0.3 && pair.other.strength[i]! > 0.3) both += 1 / rows;
  }
  const tube = tubeLikeness(strip, stretch, pair);
  const taper = breakIsLast ? -pair.taperMm : pair.taperMm;
  return [
    a + b,
    Math.min(a, b),
    both,
    Math.min(9, widthSquare(pair)),
    Math.max(-3, Math.min(4, taper)),
    Math.min(16, taper * taper) / 4,
    Math.min(16, atBreak),
    Math.min(16, atJoint),
    one.inner + other.inner,
    Math.max(0, one.beyond) + Math.max(0, other.beyond),
    tube.whole,
    tube.evenness,
    Math.min(1, pair.roughnessMm),
    bracketSquare(pair, strip, stretch, search),
    (pair.widthMm - 8.4) / 1.4,
    Math.min(one.inner, other.inner),
    Math.min(9, (pair.bowMm / 0.5) ** 2),
    Math.max(0, Math.min(one.beyond, other.beyond)),
    one.step + other.step,
    Math.min(one.step, other.step),
    0,
    ...edgeProfile(strip, stretch, pair),
  ];
}

/** The account for when none of the outlines found is the bone's: the line as tapped. */
function tappedLine({ frame, fromMm, toMm, tapErrorMm, brackets, end }: ShaftSearch): Hypothesis {
  const features = new Array<number>(SHAFT_FEATURES).fill(0);
  features[FOLLOWS_NOTHING] = 1;
  let line = { alongMm: (fromMm + toMm) / 2, acrossMm: 0, lean: 0 };
  let tapVariance = (2 * tapErrorMm * tapErrorMm) / (frame.lengthMm * frame.lengthMm);
  if (brackets.length > 1) {
    const count = brackets.length;
    const middle = brackets.reduce((sum, { alongMm }) => sum + alongMm, 0) / count;
    const at = brackets.reduce((sum, { one, other }) => sum + (one + other) / 2, 0) / count;
    const spread = brackets.reduce((sum, { alongMm }) => sum + (alongMm - middle) ** 2, 0);
    const mixed = brackets.reduce(
      (sum, { alongMm, one, other }) => sum + (alongMm - middle) * ((one + other) / 2 - at),
      0,
    );
    if (spread > 25) {
      line = { alongMm: middle, acrossMm: at, lean: mixed / spread };
      tapVariance = (tapErrorMm * tapErrorMm) / 2 / spread;
    }
  }
  // The tapped line runs from joint to break, so the bone's bow is in it.
  const bow = end === 'proximal' ? 0.04 : 0.06;
  return {
    frame,
    line,
    direction: directionOf(frame, line.lean),
    leverVariance: 0,
    unevenVariance: 0,
    tapVariance: tapVariance + bow * bow,
    features,
    pair: null,
    strip: null,
    stretch: null,
    head: null,
  };
}
