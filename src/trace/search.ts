import { failure, type Result, success } from '../geometry/result.ts';
import type { Hypothesis } from './hypothesis.ts';
import { neckHypotheses } from './neck.ts';
import type { FragmentName, TraceRequest } from './request.ts';
import { type FrameBracket, type FramePins, shaftHypotheses } from './shaft.ts';
import {
  type Frame,
  frameBetween,
  HALF_WIDTH_MM,
  inFrame,
  type MmScale,
  mmScale,
  ROW_MM,
  type Strip,
  toMm,
} from './strip.ts';
import type { TraceFailure } from './traced.ts';

/** Mean length of the four fingers' metacarpals in adults, mm: Buryanov & Kotiuk, Int J Morphol 2010;28:755. */
const USUAL_LENGTH_MM = 61;
const SHORTEST_PROXIMAL_MM = 10;
const SHORTEST_DISTAL_MM = 8;
const COARSEST_PIXEL_MM = 0.7;
/** Outlines start this far from the joint, as a share of the bone's length, and end this far from the break, mm. */
const BASE_SHARE = 0.22;
const HEAD_SHARE = 0.2;
const BREAK_MARGIN_MM = 2.5;

/** Part of a fragment that its axis is made from. */
interface Stretch {
  readonly frame: Frame;
  readonly fromMm: number;
  readonly toMm: number;
}

interface Stretches {
  readonly proximal: Stretch;
  readonly distal: Stretch;
}

/** Which part of each fragment its axis is made from. */
function stretches(request: TraceRequest, scale: MmScale): Result<Stretches, TraceFailure> {
  const { taps, site } = request;
  const [base, proximalEnd, distalEnd, headEnd] = [
    toMm(taps.base, scale),
    toMm(taps.proximalEnd, scale),
    toMm(taps.distalEnd, scale),
    toMm(taps.headEnd, scale),
  ];
  const proximal = frameBetween(base, proximalEnd);
  const distal = frameBetween(distalEnd, headEnd);
  const close = (fragment: FragmentName, lengthMm: number, neededMm: number): TraceFailure => ({
    kind: 'taps-too-close',
    fragment,
    lengthMm,
    neededMm,
  });
  if (!(proximal.lengthMm >= SHORTEST_PROXIMAL_MM)) {
    return failure(close('proximal', proximal.lengthMm, SHORTEST_PROXIMAL_MM));
  }
  if (!(distal.lengthMm >= SHORTEST_DISTAL_MM)) {
    return failure(close('distal', distal.lengthMm, SHORTEST_DISTAL_MM));
  }
  const whole = proximal.lengthMm + distal.lengthMm;
  const end = proximal.lengthMm - BREAK_MARGIN_MM;
  let start = BASE_SHARE * whole;
  if (end - start < 8) start = Math.max(2, Math.min(start, end - 8, 0.12 * whole));
  let from = BREAK_MARGIN_MM;
  let to = distal.lengthMm - HEAD_SHARE * whole;
  if (site === 'shaft' && to - from < 7) {
    to = Math.min(distal.lengthMm - 6, from + 7);
    if (to - from < 5) from = 1;
    to = Math.max(to, from + 4);
  }
  return success({
    proximal: { frame: proximal, fromMm: start, toMm: Math.max(end, start + 4) },
    distal: { frame: distal, fromMm: from, toMm: to },
  });
}

/** Millimetres per plane unit; guessed from the bone's length where the film has no scale. */
function mmPerUnit(request: TraceRequest): number {
  if (request.scale.unit === 'mm') return 1;
  const { base, proximalEnd, distalEnd, headEnd } = request.taps;
  const apart = (p: typeof base, q: typeof base): number =>
    Math.hypot((p.column - q.column) * request.scale.perColumn, (p.row - q.row) * request.scale.perRow);
  return USUAL_LENGTH_MM / Math.max(1e-9, apart(base, proximalEnd) + apart(distalEnd, headEnd));
}

function bracketsOf(
  request: TraceRequest,
  fragment: FragmentName,
  frame: Frame,
  scale: MmScale,
): FrameBracket[] {
  return request.brackets
    .filter((bracket) => bracket.fragment === fragment)
    .map(({ one, other }) => {
      const p = inFrame(frame, toMm(one, scale));
      const q = inFrame(frame, toMm(other, scale));
      return {
        alongMm: (p.along + q.along) / 2,
        one: Math.min(p.across, q.across),
        other: Math.max(p.across, q.across),
      };
    });
}

/** A corrected point this little beyond the ends of the stretch still falls on its last row, mm. */
const CORRECTION_SLACK_MM = ROW_MM / 2;

function pinsOf(
  request: TraceRequest,
  fragment: FragmentName,
  { frame, fromMm, toMm: endMm }: Stretch,
  scale: MmScale,
): Result<FramePins, TraceFailure> {
  const pins = { one: [] as FramePins['one'][number][], other: [] as FramePins['other'][number][] };
  for (const [index, correction] of request.corrections.entries()) {
    if (correction.fragment !== fragment) continue;
    const { along, across } = inFrame(frame, toMm(correction.at, scale));
    const beyond = Math.max(fromMm - along, along - endMm, 0);
    const aside = Math.max(0, Math.abs(across) - (HALF_WIDTH_MM - 1));
    if (!(beyond <= CORRECTION_SLACK_MM && aside === 0)) {
      return failure({ kind: 'correction-out-of-reach', index, distanceMm: Math.hypot(beyond, aside) });
    }
    pins[correction.side].push({ alongMm: along, across });
  }
  return success(pins);
}

function offFilm(request: TraceRequest): TraceFailure | null {
  const { picture, taps } = request;
  for (const tap of ['base', 'proximalEnd', 'distalEnd', 'headEnd'] as const) {
    const column = taps[tap].column - picture.firstColumn;
    const row = taps[tap].row - picture.firstRow;
    if (!(column >= 0 && row >= 0 && column <= picture.columns && row <= picture.rows)) {
      return { kind: 'tap-off-film', tap };
    }
  }
  return null;
}

/** The accounts of one fragment, and the strip they were found in. */
export interface FragmentSearch {
  readonly hypotheses: readonly Hypothesis[];
  readonly strip: Strip;
}

export interface BoneSearch {
  readonly scale: MmScale;
  readonly proximal: FragmentSearch;
  readonly distal: FragmentSearch;
}

/** Every account of the two fragments, not yet weighed. Fails as `trace` does before anything is looked for. */
export function searchBone(request: TraceRequest): Result<BoneSearch, TraceFailure> {
  const off = offFilm(request);
  if (off !== null) return failure(off);
  const scale = mmScale(request.scale, mmPerUnit(request));
  const pixelMm = Math.max(scale.mmPerColumn, scale.mmPerRow);
  if (pixelMm > COARSEST_PIXEL_MM) {
    return failure({ kind: 'film-too-coarse', pixelMm, neededMm: COARSEST_PIXEL_MM });
  }
  const places = stretches(request, scale);
  if (!places.ok) return places;
  const { proximal, distal } = places.value;
  const { picture, site, tapErrorMm } = request;
  const view = request.view ?? 'lateral';
  const neck = site === 'neck';
  const reach = neck ? { ...distal, fromMm: 0, toMm: distal.frame.lengthMm } : distal;
  const proximalPins = pinsOf(request, 'proximal', proximal, scale);
  if (!proximalPins.ok) return proximalPins;
  const distalPins = pinsOf(request, 'distal', reach, scale);
  if (!distalPins.ok) return distalPins;
  const known = (fragment: FragmentName, { frame }: Stretch, pins: FramePins) => ({
    tapErrorMm,
    view,
    brackets: bracketsOf(request, fragment, frame, scale),
    pins,
  });
  return success({
    scale,
    proximal: shaftHypotheses(picture, scale, {
      ...proximal,
      end: 'proximal',
      ...known('proximal', proximal, proximalPins.value),
    }),
    distal: neck
      ? neckHypotheses(picture, scale, {
          frame: distal.frame,
          ...known('distal', distal, distalPins.value),
        })
      : shaftHypotheses(picture, scale, {
          ...distal,
          end: 'distal',
          ...known('distal', distal, distalPins.value),
        }),
  });
}
