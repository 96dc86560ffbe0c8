import { parseArgs } from 'node:util';
import { trace } from '../../src/trace/trace.ts';
import { manualTurn } from './by-hand.ts';
import { type Setting, SITES, TRIED_VIEWS } from './invented-set.ts';
import { cropOf } from './kept-crops.ts';
import { TAP_MODES, type TapMode, tapped } from './tapped.ts';

/**
 * Traces invented films of a setting that nothing was calibrated on, and prints how far off it was.
 *
 *     npx tsx tests/trace/evaluate.ts [--setting trial] [--films 240] [--from 0] [--keep folder] [--worst]
 */
const { values } = parseArgs({
  options: {
    setting: { type: 'string', default: 'trial' },
    films: { type: 'string', default: '240' },
    from: { type: 'string', default: '0' },
    keep: { type: 'string' },
    worst: { type: 'boolean', default: false },
  },
});
const setting: Setting = values.setting === 'calibration' ? 'calibration' : 'trial';
const films = Number(values.films);
const first = Number(values.from);

interface Outcome {
  readonly index: number;
  readonly group: string;
  readonly mode: TapMode;
  /** Traced less true size of the angle, degrees; null where there was no trace. */
  readonly error: number | null;
  readonly held: boolean;
  readonly halfWidth: number;
  readonly sure: boolean;
  readonly secondError: number | null;
  readonly byHand: number;
  readonly note: string;
}

const outcomes: Outcome[] = [];
let milliseconds = 0;
for (let index = first; index < first + films; index += 1) {
  const { planned, crop } = cropOf(setting, index, values.keep ?? null);
  for (const mode of TAP_MODES) {
    const request = tapped(planned, crop, mode, index);
    const start = performance.now();
    const result = trace(request);
    milliseconds += performance.now() - start;
    const sign = crop.turnDegrees < 0 ? -1 : 1;
    const common = {
      index,
      group: `${planned.view} ${planned.site}`,
      mode,
      byHand: sign * (manualTurn(request.taps) - crop.turnDegrees),
    };
    if (!result.ok) {
      const { kind } = result.error;
      outcomes.push({
        ...common,
        error: null,
        held: true,
        halfWidth: 180,
        sure: false,
        secondError: null,
        note: kind,
      });
      continue;
    }
    const { turnDegrees, interval, sure, second, doubts } = result.value;
    const off = (turn: number): number => sign * wrap(turn - crop.turnDegrees);
    const truth = turnDegrees - wrap(turnDegrees - crop.turnDegrees);
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

function wrap(turn: number): number {
  return turn - 360 * Math.round(turn / 360);
}

const mean = (list: readonly number[]): number => list.reduce((sum, x) => sum + x, 0) / list.length;
const at = (list: readonly number[], share: number): number => {
  const sorted = [...list].sort((p, q) => p - q);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
};
const percent = (part: number, whole: number): string =>
  whole === 0 ? '–' : `${((100 * part) / whole).toFixed(0)}%`;
const one = (x: number): string => (Number.isNaN(x) ? '–' : x.toFixed(1));
const two = (x: number): string => (Number.isNaN(x) ? '–' : x.toFixed(2));

console.log(
  `${setting} setting, films ${first} to ${first + films - 1}, ${one(milliseconds / outcomes.length)} ms a trace`,
);
console.log(
  '| taps | group | n | no trace | MAE | p95 | bias | cover | half-width | not sure | sure and > 5° | sure: MAE / p95 | by hand: MAE / p95 |',
);
console.log('|---|---|---|---|---|---|---|---|---|---|---|---|---|');
const groups = [
  ...TRIED_VIEWS.flatMap((view) => SITES.map((site) => `${view} ${site}`)),
  'all shaft',
  'all neck',
];
for (const mode of TAP_MODES) {
  for (const group of groups) {
    const inGroup = outcomes.filter(
      (outcome) =>
        outcome.mode === mode &&
        (group.startsWith('all') ? outcome.group.endsWith(group.slice(4)) : outcome.group === group),
    );
    const traced = inGroup.filter(({ error }) => error !== null);
    const sizes = traced.map(({ error }) => Math.abs(error ?? 0));
    const sure = traced.filter((outcome) => outcome.sure);
    const sureSizes = sure.map(({ error }) => Math.abs(error ?? 0));
    const hand = inGroup.map(({ byHand }) => Math.abs(byHand));
    console.log(
      `| ${[
        mode,
        group,
        inGroup.length,
        inGroup.length - traced.length,
        two(mean(sizes)),
        one(at(sizes, 0.95)),
        two(mean(traced.map(({ error }) => error ?? 0))),
        percent(traced.filter(({ held }) => held).length, traced.length),
        one(
          at(
            traced.map(({ halfWidth }) => halfWidth),
            0.5,
          ),
        ),
        percent(inGroup.length - sure.length, inGroup.length),
        sureSizes.filter((size) => size > 5).length,
        `${two(mean(sureSizes))} / ${one(at(sureSizes, 0.95))}`,
        `${two(mean(hand))} / ${one(at(hand, 0.95))}`,
      ].join(' | ')} |`,
    );
  }
}
if (values.worst) {
  const worst = outcomes
    .filter(({ error }) => error !== null && Math.abs(error) > 4)
    .sort((p, q) => Math.abs(q.error ?? 0) - Math.abs(p.error ?? 0))
    .slice(0, 40);
  for (const { index, mode, group, error, held, halfWidth, secondError, note } of worst) {
    console.log(
      `${index} ${mode} ${group}: ${one(error ?? 0)}°, second ${secondError === null ? '–' : one(secondError)}, ±${one(halfWidth)} ${held ? 'held' : 'MISSED'}; ${note}`,
    );
  }
}
