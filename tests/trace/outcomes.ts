import type { TraceRequest } from '../../src/trace/request.ts';
import { trace } from '../../src/trace/trace.ts';
import { manualTurn } from './by-hand.ts';
import type { Dressing, Setting, Site, TriedView } from './invented-set.ts';
import { cropOf } from './kept-crops.ts';
import { SPOILINGS, type Spoiling } from './spoiling.ts';
import { TAP_MODES, type TapMode, tapped } from './tapped.ts';

/** How far a trace of one invented film was off. */
export interface Outcome {
  readonly index: number;
  readonly view: TriedView;
  readonly site: Site;
  readonly mode: TapMode;
  /** Traced less true size of the angle, degrees; null where there was no trace. */
  readonly error: number | null;
  /** Whether the interval holds the truth. */
  readonly held: boolean;
  readonly halfWidth: number;
  readonly sure: boolean;
  readonly secondError: number | null;
  /** Error of the four taps alone. */
  readonly byHand: number;
  /** Of one processor, whatever else the machine is doing. */
  readonly milliseconds: number;
  readonly note: string;
}

export interface Tried {
  readonly setting: Setting;
  readonly from: number;
  readonly films: number;
  /** Where drawn films are kept for the next time; null: nowhere. */
  readonly folder: string | null;
  /** Whether the tracer is told how the hand lies. */
  readonly viewKnown: boolean;
  readonly spoiling: Spoiling;
  readonly dressing: Dressing;
}

/** Traces every film of a set in every way of tapping. */
export function outcomesOf({
  setting,
  from,
  films,
  folder,
  viewKnown,
  spoiling,
  dressing,
}: Tried): Outcome[] {
  const spoil: ((request: TraceRequest) => TraceRequest) | null = SPOILINGS[spoiling];
  const outcomes: Outcome[] = [];
  for (let index = from; index < from + films; index += 1) {
    const { planned, crop } = cropOf(setting, index, folder, dressing);
    for (const mode of TAP_MODES) {
      const exact = tapped(planned, crop, mode, index);
      const told = { ...exact, view: viewKnown ? exact.view : null };
      const request = spoil === null ? told : spoil(told);
      const start = process.cpuUsage();
      const result = trace(request);
      const { user, system } = process.cpuUsage(start);
      const milliseconds = (user + system) / 1000;
      const sign = crop.turnDegrees < 0 ? -1 : 1;
      const off = (turn: number): number => sign * wrapped(turn - crop.turnDegrees);
      const common = {
        index,
        view: planned.view,
        site: planned.site,
        mode,
        byHand: off(manualTurn(request.taps)),
        milliseconds,
      };
      if (!result.ok) {
        const none = { error: null, held: true, halfWidth: 180, sure: false, secondError: null };
        outcomes.push({ ...common, ...none, note: result.error.kind });
        continue;
      }
      const { turnDegrees, interval, sure, second, doubts } = result.value;
      const truth = turnDegrees - wrapped(turnDegrees - crop.turnDegrees);
      outcomes.push({
        ...common,
        error: off(turnDegrees),
        held: truth >= interval.from && truth <= interval.to,
        halfWidth: (interval.to - interval.from) / 2,
        sure,
        secondError: second === null ? null : off(second.turnDegrees),
        note: `${planned.ray} true ${crop.turnDegrees.toFixed(0)} ${doubts.map(({ kind }) => kind).join(', ')}`,
      });
    }
  }
  return outcomes;
}

const wrapped = (turn: number): number => turn - 360 * Math.round(turn / 360);
