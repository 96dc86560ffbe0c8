import type { Hypothesis } from './hypothesis.ts';
import type { FragmentName, TraceRequest, TraceSite } from './request.ts';
import { inFrame, type MmScale, ROW_MM, type Strip } from './strip.ts';
import type { Doubt } from './traced.ts';

/**
 * A reading whose interval reaches farther than this to either side is shown as not sure. Necks are held closer: on
 * films below 600 of the trial setting, 3 of 596 passed 6° and were more than 5° off, none passed 5.5°.
 */
export const WIDEST_SURE_DEGREES: Readonly<Record<TraceSite, number>> = { shaft: 6, neck: 5.5 };
/** Below this the axis of a fragment turns by more than 5° for half a millimetre at either end. */
const WANTED_LEVER_MM = 8;
/** Mean strength of an outline that hardly shows. */
const WANTED_STRENGTH = 0.5;
const MOST_CUT_OFF = 0.5;

interface Judged {
  readonly request: TraceRequest;
  readonly scale: MmScale;
  readonly halfWidthDegrees: number;
  readonly second: {
    readonly fragment: FragmentName;
    readonly turnDegrees: number;
    readonly share: number;
  } | null;
  readonly fragments: readonly {
    readonly name: FragmentName;
    readonly leader: Hypothesis;
    readonly strip: Strip;
  }[];
}

/** What speaks against taking a trace as it is. */
export function doubtsOf({ request, scale, halfWidthDegrees, second, fragments }: Judged): Doubt[] {
  const doubts: Doubt[] = [];
  if (second !== null) {
    doubts.push({
      kind: 'parallel-outlines',
      fragment: second.fragment,
      otherTurnDegrees: second.turnDegrees,
      share: second.share,
    });
  }
  for (const { name, leader, strip } of fragments) {
    doubts.push(...leverDoubts(name, leader), ...outlineDoubts(name, leader));
    if (strip.cutOff > MOST_CUT_OFF) doubts.push({ kind: 'grey-scale-cut-off', share: strip.cutOff });
  }
  if (request.scale.unit !== 'mm') {
    doubts.push({ kind: 'scale-guessed', mmPerColumn: scale.mmPerColumn });
  }
  const limitDegrees = WIDEST_SURE_DEGREES[request.site];
  if (halfWidthDegrees > limitDegrees) {
    doubts.push({ kind: 'wide-interval', halfWidthDegrees, limitDegrees });
  }
  return doubts;
}

function leverDoubts(fragment: FragmentName, { head, frame, stretch }: Hypothesis): Doubt[] {
  if (head !== null) {
    const leverMm = inFrame(frame, head.centre).along;
    if (leverMm < head.radiusMm) {
      return [{ kind: 'end-on', fragment, leverMm, headRadiusMm: head.radiusMm }];
    }
    return leverMm < WANTED_LEVER_MM
      ? [{ kind: 'short-lever', fragment, leverMm, wantedMm: WANTED_LEVER_MM }]
      : [];
  }
  const leverMm = stretch === null ? frame.lengthMm : (stretch.last - stretch.first) * ROW_MM;
  return leverMm < WANTED_LEVER_MM
    ? [{ kind: 'short-lever', fragment, leverMm, wantedMm: WANTED_LEVER_MM }]
    : [];
}

function outlineDoubts(fragment: FragmentName, { pair, head }: Hypothesis): Doubt[] {
  if (pair === null || head !== null) return [];
  return (['one', 'other'] as const).flatMap((side): Doubt[] =>
    pair[side].meanStrength < WANTED_STRENGTH
      ? [{ kind: 'weak-outline', fragment, side, strength: pair[side].meanStrength, wanted: WANTED_STRENGTH }]
      : [],
  );
}
