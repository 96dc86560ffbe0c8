import { expect, test } from 'vitest';
import {
  type CursorEffect,
  type CursorEvent,
  type CursorState,
  HIDDEN,
  nextCursor,
} from '../../../src/canvas/tools/placing-cursor.ts';

const plate = { width: 400, height: 300 };
const step = (x: number, y: number): CursorEvent => ({ kind: 'step', by: { x, y }, plate });
const enter: CursorEvent = { kind: 'enter', plate };

function run(...events: readonly CursorEvent[]) {
  let state: CursorState = HIDDEN;
  const effects: CursorEffect[] = [];
  for (const event of events) {
    const next = nextCursor(state, event);
    state = next.state;
    effects.push(...next.effects);
  }
  return { state, effects };
}

test('the first arrow shows the cross in the middle of the plate, the next ones move it', () => {
  expect(run(step(1, 0), step(10, 0), step(0, -1)).effects).toEqual([
    { kind: 'aim', at: { x: 200, y: 150 } },
    { kind: 'aim', at: { x: 210, y: 150 } },
    { kind: 'aim', at: { x: 210, y: 149 } },
  ]);
});

test('Enter places the point that is shown, and the cross stays for the next one', () => {
  const { state, effects } = run(step(1, 0), step(5, 0), enter);
  expect(effects.at(-1)).toEqual({ kind: 'place', at: { x: 205, y: 150 } });
  expect(state).toEqual({ kind: 'shown', at: { x: 205, y: 150 } });
});

test('Enter shows the cross before it places anything', () => {
  expect(run(enter).effects).toEqual([{ kind: 'aim', at: { x: 200, y: 150 } }]);
});

test('the cross stays on the plate', () => {
  const steps = Array.from({ length: 60 }, () => step(10, 10));
  expect(run(...steps).state).toEqual({ kind: 'shown', at: { x: 400, y: 300 } });
});

test('put away, it is hidden and nothing is aimed at', () => {
  expect(run(step(1, 0), { kind: 'put-away' })).toMatchObject({
    state: HIDDEN,
    effects: [{ kind: 'aim' }, { kind: 'stop-aiming' }],
  });
  expect(run({ kind: 'put-away' }).effects).toEqual([]);
});
