import type { Cause } from './causes.ts';
import { rayWords } from './exercise.ts';
import type { Misplaced } from './placed-points.ts';
import type { AxisError, Reveal } from './reveal.ts';
import type { TrueAxisBy } from './true-axes.ts';

/** Thin, and no place for a line to break: a number stays with its sign and its unit. */
const THIN = '\u202f';

/** 4.24 → "4.2°"; small angles keep a decimal, since a verdict may hang on it. */
export const inDegrees = (value: number): string => `${plain(value, Math.abs(value) < 20 ? 1 : 0)}°`;
/** The same with its sign always written. */
export function withSign(value: number): string {
  const size = inDegrees(Math.abs(value));
  if (Number.parseFloat(size) === 0) return size;
  return `${value < 0 ? '−' : '+'}${size}`;
}
export const inMm = (value: number): string => `${plain(value, 1)}${THIN}mm`;

function plain(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
}

/** The verdict in one or two sentences: the error against what the reading itself claimed. */
export function verdictWords({ error, reading, verdict, chance }: Reveal, causes: readonly Cause[]): string {
  const { expandedUncertainty } = reading;
  const off = inDegrees(Math.abs(error));
  const claimed = inDegrees(expandedUncertainty);
  if (verdict === 'outside') {
    const seldom =
      chance < 0.001
        ? 'fewer than one reading in a thousand'
        : `only about ${Math.max(1, Math.round(1000 * chance))} readings in a thousand`;
    return `Off by ${off}, more than the ±${THIN}${claimed} that you claimed. If that claim were right, ${seldom} would be so far off: something beyond the usual placing error is at work.`;
  }
  if (causes.some(({ kind }) => kind === 'wrong-finger')) {
    return `Off by ${off}, within your ±${THIN}${claimed}, but by luck: it is not the bone that was asked for.`;
  }
  if (expandedUncertainty > WIDE_DEGREES) {
    return `Off by ${off}, within your ±${THIN}${claimed}. The interval holds the truth, but it is too wide to decide much with.`;
  }
  return `Off by ${off}, within your ±${THIN}${claimed}. You claimed no more than you knew.`;
}

/** An interval wider than this spans the whole difference between most published limits. */
const WIDE_DEGREES = 10;

const TRUE_BY: Readonly<Record<TrueAxisBy, string>> = {
  centreline: 'the middle of the bone',
  'head-centre': 'the middle of the broken end and the centre of the head',
  'base-and-break': 'the middle of the base and of the broken end',
  'dorsal-cortex': 'the bone’s own dorsal cortex, as you chose to draw it',
  midline: 'the middle between the cortices of the piece you used',
};

/** What an axis did, whether it was right or not. */
export function axisWords(axis: AxisError, side: Reveal['side']): string {
  return `The ${axis.fragment} axis is ${inMm(axis.lengthMm)} long. Its proximal end lies ${endWords(axis.fromMm, side)}, its distal end ${endWords(axis.toMm, side)}; it adds ${withSign(axis.addsDegrees)}. The true line runs through ${TRUE_BY[axis.trueBy]}.`;
}

/** Where an end of an axis lies; within half a millimetre, the usual placing error, it is on the line. */
function endWords(mm: number, side: Reveal['side']): string {
  if (Math.abs(mm) < 0.5) return 'on the true line';
  const opposite = side === 'dorsal' ? 'volar' : 'ulnar';
  return `${inMm(Math.abs(mm))} ${mm > 0 ? side : opposite} of the true line`;
}

const MISPLACED: Readonly<Record<Exclude<Misplaced['on'], 'neighbour'>, string>> = {
  'outer-cortex': 'on the outer cortex, where the wall of the canal was meant',
  'canal-wall': 'on the wall of the canal, where the outer cortex was meant',
  'off-middle': 'away from the middle of the broken end',
  outside: 'outside the bone',
  inside: 'inside the bone',
};

const SAME_EDGE =
  'Magnify, and place each point on the same edge all along: the inner wall of the canal, or the outer cortex, never one of each.';
const NEXT_PLACING: Readonly<Partial<Record<Misplaced['on'], string>>> = {
  neighbour: 'Where bones overlap, follow one cortex from where it stands alone into the overlap.',
  'off-middle': 'Magnify, find both edges of the broken end, and put the point halfway between them.',
};

/** A cause in a sentence, and what to do about it. */
export function causeWords(
  cause: Cause,
  side: Reveal['side'],
): { readonly what: string; readonly next: string } {
  switch (cause.kind) {
    case 'wrong-finger':
      return {
        what: `The ${cause.fragment} axis lies along the metacarpal of the ${rayWords(cause.ray)}: ${inMm(cause.distanceMm)} from that bone’s axis, ${inMm(cause.ownDistanceMm)} from the one asked for.`,
        next: 'Follow the finger down from its nail to the knuckle before placing anything; in a lateral view count the heads.',
      };
    case 'wrong-side':
      return {
        what: `The ${side} side was tapped on the other side of the bone, so the angle has the wrong sign.`,
        next:
          side === 'dorsal'
            ? 'Look for the nails and the bulge of the knuckles: that is the back of the hand.'
            : 'Look for the thumb: that is the radial side.',
      };
    case 'point-off': {
      const { point } = cause;
      const where =
        point.misplaced.on === 'neighbour'
          ? `on the edge of the ${rayWords(point.misplaced.ray)}’s bone`
          : MISPLACED[point.misplaced.on];
      return {
        what: `Point ${point.index + 1} of the ${point.fragment} axis lies ${inMm(Math.abs(point.offMm))} off, ${where}.`,
        next: NEXT_PLACING[point.misplaced.on] ?? SAME_EDGE,
      };
    }
    case 'axis-too-short':
      return {
        what: `The ${cause.fragment} axis is ${inMm(cause.lengthMm)} long where ${inMm(cause.couldBeMm)} could be drawn. At that length one millimetre at one end turns it by ${inDegrees(cause.degreesPerMm)}.`,
        next: 'Use the whole straight part of the fragment: put the levels as far apart as the bone allows.',
      };
    case 'axis-tilted': {
      return {
        what: `The ${cause.fragment} axis is turned: it starts ${endWords(cause.fromMm, side)} and ends ${endWords(cause.toMm, side)}.`,
        next: 'Place the mid-points between both cortices, not along one of them, and look once more at each end magnified.',
      };
    }
    case 'normal-not-subtracted':
      return {
        what: `No normal was taken off. This bone was bent by ${inDegrees(cause.normal)} before it broke.`,
        next: 'Measure the other hand with the same lines, or take a published normal, before calling an angle a deformity.',
      };
    case 'normal-of-others':
      return {
        what: `${inDegrees(cause.taken)} were taken off as the normal; before it broke this bone measured ${inDegrees(cause.normal)} with your lines.`,
        next: 'A published normal is other people’s mean. Where there is a film of the other hand, measure that.',
      };
    case 'view-oblique':
      return {
        what: `The film itself: with the hand turned by ${plain(cause.turnDegrees, 0)}°${cause.leanDegrees === 0 ? '' : ` and tipped by ${plain(cause.leanDegrees, 0)}°`}, it shows ${inDegrees(cause.shown)} where the bone is bent by ${inDegrees(cause.inPlane)} ${side === 'dorsal' ? 'from back to palm' : 'from side to side'}. Your reading is not to blame.`,
        next: 'Ask for a true view, or for a second one; no formula makes a lateral out of an oblique.',
      };
  }
}

/** The one thing to do next, from what went wrong most. */
export function nextWords(causes: readonly Cause[], found: Reveal): string {
  const worst = causes.find(({ kind }) => kind !== 'view-oblique');
  if (found.verdict === 'inside' && (worst === undefined || Math.abs(worst.adds) < 2)) {
    return found.reading.expandedUncertainty > WIDE_DEGREES
      ? 'Draw the axes longer, with their points farther apart, and see the interval shrink.'
      : 'Go on to the next film, or to a harder level.';
  }
  const chosen = worst ?? causes[0];
  return chosen === undefined ? 'Place the axes once more and compare.' : causeWords(chosen, found.side).next;
}
