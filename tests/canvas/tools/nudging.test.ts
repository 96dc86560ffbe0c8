import { describe, expect, test } from 'vitest';
import {
  type NudgingEffect,
  type NudgingEvent,
  type NudgingState,
  nextNudging,
  nudgeOf,
  RESTING,
} from '../../../src/canvas/tools/nudging.ts';
import { recordId } from '../../../src/case/document.ts';

const one = { markId: recordId('proximal'), key: 'from' };
const other = { markId: recordId('proximal'), key: 'to' };
const right = { x: 1, y: 0 };

function run(...events: readonly NudgingEvent[]) {
  let state: NudgingState = RESTING;
  const effects: NudgingEffect[] = [];
  for (const event of events) {
    const step = nextNudging(state, event);
    state = step.state;
    effects.push(...step.effects);
  }
  return { state, effects: effects.map(({ kind }) => kind), last: effects.at(-1) };
}

test.each([
  { key: 'ArrowLeft', shift: false, nudge: { x: -1, y: 0 } },
  { key: 'ArrowRight', shift: true, nudge: { x: 10, y: 0 } },
  { key: 'ArrowUp', shift: true, nudge: { x: 0, y: -10 } },
  { key: 'ArrowDown', shift: false, nudge: { x: 0, y: 1 } },
  { key: 'a', shift: false, nudge: null },
])('$key with shift $shift nudges by $nudge', ({ key, shift, nudge }) => {
  // `toEqual` would tell −0 from 0.
  expect(JSON.stringify(nudgeOf(key, shift))).toBe(JSON.stringify(nudge));
});

describe('a run of nudges', () => {
  const nudge: NudgingEvent = { kind: 'nudge', point: one, by: right };

  test.each(['pause-over', 'blur', 'enter'] as const)('is one change, made at %s', (kind) => {
    const { state, effects } = run(nudge, nudge, nudge, { kind });
    expect(state).toEqual(RESTING);
    expect(effects).toEqual([
      'shift',
      'start-pause',
      'shift',
      'start-pause',
      'shift',
      'start-pause',
      'commit',
    ]);
  });

  test('is taken back as a whole at Escape', () => {
    const { state, last } = run(nudge, nudge, { kind: 'escape' });
    expect(state).toEqual(RESTING);
    expect(last).toEqual({ kind: 'put-back', point: one });
  });

  test('ends when another point is nudged', () => {
    const { effects } = run(nudge, { kind: 'nudge', point: other, by: right });
    expect(effects).toEqual(['shift', 'start-pause', 'commit', 'shift', 'start-pause']);
  });

  test.each(['pause-over', 'blur', 'enter', 'escape'] as const)('%s without a run does nothing', (kind) => {
    expect(run({ kind }).effects).toEqual([]);
  });
});
