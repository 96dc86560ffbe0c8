import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  IDLE,
  nextPointing,
  type Pointer,
  type PointingEffect,
  type PointingEvent,
  type PointingState,
} from '../../../src/canvas/tools/pointing.ts';
import { recordId } from '../../../src/case/document.ts';
import { screenPoint } from '../../../src/geometry/units.ts';

const point = { markId: recordId('distal'), key: 'to' };

const pointer = (x: number, y: number, id = 1, type: Pointer['type'] = 'mouse'): Pointer => ({
  id,
  type,
  at: screenPoint(x, y),
});
const press = (
  at: Pointer,
  more: Partial<Extract<PointingEvent, { kind: 'press' }>> = {},
): PointingEvent => ({ kind: 'press', pointer: at, button: 'primary', hit: null, placing: false, ...more });
const move = (at: Pointer): PointingEvent => ({ kind: 'move', pointer: at });
const release = (at: Pointer): PointingEvent => ({ kind: 'release', pointer: at });

/** Runs events from idle; gives the last state and all effects in order. */
function run(...events: readonly PointingEvent[]) {
  let state: PointingState = IDLE;
  const effects: PointingEffect[] = [];
  for (const event of events) {
    const step = nextPointing(state, event);
    state = step.state;
    effects.push(...step.effects);
  }
  return { state, effects };
}

describe('placing', () => {
  test('a click places the point where it was let go', () => {
    const { state, effects } = run(press(pointer(10, 20), { placing: true }), release(pointer(10, 20)));
    expect(state).toEqual(IDLE);
    expect(effects).toEqual([
      { kind: 'aim', at: { x: 10, y: 20 } },
      { kind: 'place', at: { x: 10, y: 20 } },
    ]);
  });

  test('pressing, moving and letting go places the last point only', () => {
    const { effects } = run(
      press(pointer(10, 20), { placing: true }),
      move(pointer(30, 25)),
      release(pointer(31, 25)),
    );
    expect(effects.filter(({ kind }) => kind === 'place')).toEqual([{ kind: 'place', at: { x: 31, y: 25 } }]);
  });

  test('giving up places nothing', () => {
    const { state, effects } = run(press(pointer(10, 20), { placing: true }), { kind: 'abandon' });
    expect(state).toEqual(IDLE);
    expect(effects.at(-1)).toEqual({ kind: 'stop-aiming' });
    expect(effects.some(({ kind }) => kind === 'place')).toBe(false);
  });

  test('a control point under the pointer is not taken while placing', () => {
    const { state } = run(press(pointer(10, 20), { placing: true, hit: { point, at: screenPoint(11, 20) } }));
    expect(state.kind).toBe('aiming');
  });

  test('a second finger drops the aim and pinches; the last finger lifted places nothing', () => {
    const { state, effects } = run(
      press(pointer(10, 20, 1, 'touch'), { placing: true }),
      press(pointer(110, 20, 2, 'touch'), { placing: true }),
      move(pointer(210, 20, 2, 'touch')),
      release(pointer(210, 20, 2, 'touch')),
      release(pointer(10, 20, 1, 'touch')),
    );
    expect(state).toEqual(IDLE);
    expect(effects).toEqual([
      { kind: 'aim', at: { x: 10, y: 20 } },
      { kind: 'stop-aiming' },
      {
        kind: 'pinch',
        from: [
          { x: 10, y: 20 },
          { x: 110, y: 20 },
        ],
        to: [
          { x: 10, y: 20 },
          { x: 210, y: 20 },
        ],
      },
    ]);
  });

  test('a palm beside a pen changes nothing', () => {
    const { state } = run(
      press(pointer(10, 20, 1, 'pen'), { placing: true }),
      press(pointer(200, 300, 2, 'touch'), { placing: true }),
      move(pointer(220, 300, 2, 'touch')),
    );
    expect(state).toEqual({ kind: 'aiming', pointer: pointer(10, 20, 1, 'pen') });
  });
});

describe('dragging a control point', () => {
  const hit = { point, at: screenPoint(13, 24) };

  test('keeps the distance between pointer and point, so that it does not jump', () => {
    const { effects } = run(press(pointer(10, 20), { hit }), move(pointer(50, 70)));
    // The point was 3 to the right of and 4 below the pointer.
    expect(effects).toEqual([
      { kind: 'take', point },
      { kind: 'drag', point, to: { x: 53, y: 74 } },
    ]);
  });

  test('a press without a move drags nothing', () => {
    const { effects } = run(press(pointer(10, 20), { hit }), release(pointer(10, 20)));
    expect(effects.map(({ kind }) => kind)).toEqual(['take', 'let-go']);
  });

  test('a release elsewhere than the last move counts as a move', () => {
    const { effects } = run(press(pointer(10, 20), { hit }), release(pointer(12, 20)));
    expect(effects.slice(1)).toEqual([
      { kind: 'drag', point, to: { x: 15, y: 24 } },
      { kind: 'let-go', point },
    ]);
  });

  test('giving up puts the point back', () => {
    const { state, effects } = run(press(pointer(10, 20), { hit }), move(pointer(50, 70)), {
      kind: 'abandon',
    });
    expect(state).toEqual(IDLE);
    expect(effects.at(-1)).toEqual({ kind: 'put-back', point });
  });

  test('a second finger does not disturb it', () => {
    const { state } = run(
      press(pointer(10, 20, 1, 'touch'), { hit }),
      press(pointer(100, 100, 2, 'touch')),
      move(pointer(120, 100, 2, 'touch')),
      release(pointer(120, 100, 2, 'touch')),
    );
    expect(state.kind).toBe('dragging');
  });

  test('the middle button moves the film, control point or not', () => {
    expect(run(press(pointer(10, 20), { hit, button: 'middle', placing: true })).state.kind).toBe(
      'moving-film',
    );
  });
});

describe('moving the film', () => {
  test('each move goes from where the last one ended', () => {
    const { effects } = run(press(pointer(0, 0)), move(pointer(5, 1)), move(pointer(9, 4)));
    expect(effects).toEqual([
      { kind: 'move-film', from: { x: 0, y: 0 }, to: { x: 5, y: 1 } },
      { kind: 'move-film', from: { x: 5, y: 1 }, to: { x: 9, y: 4 } },
    ]);
  });

  test('after a pinch the finger that stays goes on moving it', () => {
    const { effects } = run(
      press(pointer(0, 0, 1, 'touch')),
      press(pointer(100, 0, 2, 'touch')),
      release(pointer(0, 0, 1, 'touch')),
      move(pointer(110, 5, 2, 'touch')),
    );
    expect(effects).toEqual([{ kind: 'move-film', from: { x: 100, y: 0 }, to: { x: 110, y: 5 } }]);
  });
});

test('whatever comes, every move is either ended or put back before the next begins', () => {
  const pointers = fc
    .tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 300 }), fc.integer({ min: 1, max: 3 }))
    .map(([x, y, id]) => pointer(x, y, id, id === 3 ? 'mouse' : 'touch'));
  const events: fc.Arbitrary<PointingEvent> = fc.oneof(
    fc.tuple(pointers, fc.boolean(), fc.boolean(), fc.boolean()).map(([at, placing, hits, middle]) =>
      press(at, {
        placing,
        button: middle ? 'middle' : 'primary',
        hit: hits ? { point, at: at.at } : null,
      }),
    ),
    pointers.map(move),
    pointers.map(release),
    fc.constant<PointingEvent>({ kind: 'abandon' }),
  );
  fc.assert(
    fc.property(fc.array(events, { maxLength: 40 }), (list) => {
      const { effects } = run(...list, { kind: 'abandon' });
      let taken = false;
      for (const { kind } of effects) {
        if (kind === 'take') {
          expect(taken).toBe(false);
          taken = true;
        } else if (kind === 'let-go' || kind === 'put-back') {
          expect(taken).toBe(true);
          taken = false;
        } else {
          expect(kind === 'drag').toBe(taken);
        }
      }
      expect(taken).toBe(false);
    }),
  );
});
