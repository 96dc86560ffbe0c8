import { failure, type Result, success } from '../geometry/result.ts';
import { type Belief, beliefIn, CALIBRATION, type FragmentCalibration } from './calibration.ts';
import { doubtsOf, WIDEST_SURE_DEGREES } from './doubts.ts';
import { type Group, grouped, leaderOf } from './groups.ts';
import type { Hypothesis } from './hypothesis.ts';
import { type Joint, joined, sharedBelief, turnBells } from './joint.ts';
import { shortestInterval } from './mixture.ts';
import { fragmentOf, notObeyed } from './outcome.ts';
import { searchEitherWay } from './polarity.ts';
import type { FragmentName, TraceRequest } from './request.ts';
import type { FragmentSearch } from './search.ts';
import type { MmScale, Strip } from './strip.ts';
import type { SecondReading, TracedBone, TraceFailure } from './traced.ts';
import { type Weighed, weigh, wrapped } from './weigh.ts';

/** Mean strength of the weaker outline of the best pair below which nothing was found. Noise is told by coherence. */
const LEAST_STRENGTH = 0.2;
/** The same of the best head. */
const LEAST_HEAD_STRENGTH = 0.55;
/** Of a proximal fragment: noise alone stays below 0.11, invented ones begin at 0.17. A distal one is too short to tell. */
const LEAST_COHERENCE = 0.12;
/** A second account with this share, and this far off, is told. */
const SECOND_SHARE = 0.08;
const SECOND_DEGREES = 2.5;

/** With less belief than this in the likeliest pair of accounts, nothing was found. */
const LEAST_BELIEF = 0.12;

const DEGREES = 180 / Math.PI;

/** One fragment's accounts, weighed, before the other fragment is asked. */
interface Found {
  readonly weighed: readonly Weighed[];
  /** The direction that the accounts' directions are measured from, radians. */
  readonly reference: number;
  readonly strip: Strip;
}

function judged(
  { hypotheses, strip }: FragmentSearch,
  calibration: FragmentCalibration,
  belief: Belief,
  fragment: FragmentName,
): Result<Found, TraceFailure> {
  if (strip.usualSlope === 0) return failure({ kind: 'blank-film', fragment });
  const short = (measure: 'strength' | 'coherence', found: number, needed: number) =>
    failure({ kind: 'no-outlines' as const, fragment, measure, found, needed });
  const { coherence } = strip;
  if (fragment === 'proximal' && coherence < LEAST_COHERENCE) {
    return short('coherence', coherence, LEAST_COHERENCE);
  }
  const head = Math.max(0, ...hypotheses.map((account) => account.head?.strength ?? 0));
  if (head > 0 && head < LEAST_HEAD_STRENGTH) return short('strength', head, LEAST_HEAD_STRENGTH);
  const pair = Math.max(0, ...hypotheses.map(pairStrength));
  if (head === 0 && pair < LEAST_STRENGTH) return short('strength', pair, LEAST_STRENGTH);
  const reference = hypotheses.at(-1)?.direction ?? 0;
  return success({ weighed: weigh(hypotheses, calibration, belief, reference), reference, strip });
}

const pairStrength = ({ pair }: Hypothesis): number =>
  pair === null ? 0 : Math.min(pair.one.meanStrength, pair.other.meanStrength);

/** Two groups, one of each fragment. */
interface GroupPair {
  readonly proximal: Group;
  readonly distal: Group;
  readonly share: number;
}

const MOST_GROUPS = 6;

/** Pairs of groups that follow something on the film, the likeliest first. */
function groupPairs(joint: Joint): GroupPair[] {
  const seen = ({ members }: Group): boolean => {
    const leader = members[0]?.hypothesis;
    return leader !== undefined && (leader.pair !== null || leader.head !== null);
  };
  const near = grouped(joint.proximal).slice(0, MOST_GROUPS);
  const far = grouped(joint.distal).slice(0, MOST_GROUPS);
  return near
    .flatMap((proximal) =>
      far.map((distal) => ({ proximal, distal, share: sharedBelief(joint, proximal, distal) })),
    )
    .filter(({ proximal, distal }) => seen(proximal) && seen(distal))
    .sort((p, q) => q.share - p.share);
}

/** The farther half of a fragment's own 95 % interval about its axis, as one standard deviation, degrees. */
function uncertaintyOf(weighed: readonly Weighed[], group: Group, mass: number): number {
  const { from, to } = shortestInterval(
    weighed.map(({ bell }) => bell),
    mass,
    CALIBRATION.tails,
  );
  return (Math.max(group.direction - from, to - group.direction, (to - from) / 2) * DEGREES) / 1.96;
}

/**
 * Finds the two axes of a broken metacarpal round four taps.
 *
 * Each fragment gets several accounts of where its outlines run (`shaft.ts`, `neck.ts`), each with a direction
 * and numbers for and against it. A score set on invented films turns those into shares of belief, and the
 * belief about the angle is the mixture of all of them: two humps where two outlines compete. The reading is
 * the mean of the likeliest account and those that put the bone in the same place; the interval is the shortest
 * that holds 95 % of the calibrated belief.
 *
 * The same request gives the same answer: nothing is drawn by chance.
 *
 * Fails with `tap-off-film`, `taps-too-close`, `film-too-coarse`, `blank-film`, `no-outlines`,
 * `correction-out-of-reach` and `correction-not-followed`; `sentences.ts` says each to a person.
 *
 * @see docs/tracing.md for method, figures and what it cannot do.
 */
export function trace(request: TraceRequest): Result<TracedBone, TraceFailure> {
  const found = searchEitherWay(request);
  if (!found.ok) return found;
  const { search, negative } = found.value;
  const belief = beliefIn(CALIBRATION, request.site, request.view);
  const proximal = judged(search.proximal, CALIBRATION.proximal, belief, 'proximal');
  if (!proximal.ok) return proximal;
  const calibration = request.site === 'neck' ? CALIBRATION.neck : CALIBRATION.distal;
  const distal = judged(search.distal, calibration, belief, 'distal');
  if (!distal.ok) return distal;
  const joint = joined(proximal.value.weighed, distal.value.weighed, CALIBRATION.widthCoupling);
  const pairs = groupPairs(joint);
  const [first] = pairs;
  if (first === undefined || first.share < LEAST_BELIEF) {
    const fragment = unseenShare(joint.proximal) > unseenShare(joint.distal) ? 'proximal' : 'distal';
    return failure({
      kind: 'no-outlines',
      fragment,
      measure: 'belief',
      found: first?.share ?? 0,
      needed: LEAST_BELIEF,
    });
  }
  const leaders = { proximal: leaderOf(first.proximal), distal: leaderOf(first.distal) };
  const missed = notObeyed(request.corrections, leaders, search.scale);
  if (missed !== null) return failure(missed);
  const bone = reading(request, search.scale, proximal.value, distal.value, joint, first, pairs);
  if (negative === 'no') return success(bone);
  const plain = negative === 'plainly';
  return success({
    ...bone,
    sure: bone.sure && plain,
    doubts: [{ kind: 'negative', plain }, ...bone.doubts],
  });
}

/** Belief that nothing found is the fragment. */
const unseenShare = (weighed: readonly Weighed[]): number =>
  weighed
    .filter(({ hypothesis }) => hypothesis.pair === null && hypothesis.head === null)
    .reduce((sum, { bell }) => sum + bell.share, 0);

function reading(
  request: TraceRequest,
  scale: MmScale,
  proximal: Found,
  distal: Found,
  joint: Joint,
  first: GroupPair,
  pairs: readonly GroupPair[],
): TracedBone {
  const straight = wrapped(distal.reference - proximal.reference);
  const { mass } = beliefIn(CALIBRATION, request.site, request.view);
  const held = shortestInterval(turnBells(joint), mass, CALIBRATION.tails);
  const turnOf = (pair: GroupPair): number => pair.distal.direction - pair.proximal.direction;
  const fragments = (pair: GroupPair) => ({
    proximal: fragmentOf(
      pair.proximal,
      'proximal',
      scale,
      request.corrections,
      uncertaintyOf(joint.proximal, pair.proximal, mass),
    ),
    distal: fragmentOf(
      pair.distal,
      'distal',
      scale,
      request.corrections,
      uncertaintyOf(joint.distal, pair.distal, mass),
    ),
  });
  const turn = turnOf(first);
  const turnDegrees = (straight + turn) * DEGREES;
  const from = (straight + Math.min(held.from, turn)) * DEGREES;
  const to = (straight + Math.max(held.to, turn)) * DEGREES;
  const rival = pairs.find(
    (pair) => pair.share >= SECOND_SHARE && Math.abs(turnOf(pair) - turn) * DEGREES >= SECOND_DEGREES,
  );
  const second: SecondReading | null =
    rival === undefined
      ? null
      : {
          turnDegrees: (straight + turnOf(rival)) * DEGREES,
          share: rival.share,
          ...fragments(rival),
        };
  const halfWidthDegrees = Math.max(to - turnDegrees, turnDegrees - from);
  return {
    ...fragments(first),
    turnDegrees,
    interval: { from, to },
    second,
    sure: halfWidthDegrees <= WIDEST_SURE_DEGREES[request.site],
    basis: CALIBRATION.basis,
    doubts: doubtsOf({
      request,
      scale,
      halfWidthDegrees,
      second:
        rival === undefined || second === null
          ? null
          : {
              fragment: rival.proximal === first.proximal ? 'distal' : 'proximal',
              turnDegrees: second.turnDegrees,
              share: second.share,
            },
      fragments: [
        { name: 'proximal', leader: leaderOf(first.proximal), strip: proximal.strip },
        { name: 'distal', leader: leaderOf(first.distal), strip: distal.strip },
      ],
    }),
  };
}
