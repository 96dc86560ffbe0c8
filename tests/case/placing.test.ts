import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MarkRole } from '../../src/case/document.ts';
import { controlPoints } from '../../src/case/marks.ts';
import {
  advance,
  nextPoint,
  type Placing,
  placedPoints,
  placingCaption,
  startPlacing,
  stepBack,
} from '../../src/case/placing.ts';
import { ROLES } from '../../src/case/roles.ts';
import { fewest } from '../../src/case/shape-points.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { arbitraryPoint } from './arbitrary.ts';

const roles = Object.keys(ROLES) as MarkRole[];
const every = roles.flatMap((role) =>
  ROLES[role].constructions.map((construction) => ({ role, construction })),
);

/** Places point after point until the mark is done. */
function placeAll(start: Placing, points: readonly (readonly [number, number])[]) {
  let placing = start;
  const asked: string[] = [];
  for (const [column, row] of points) {
    asked.push(nextPoint(placing).fullName);
    const next = advance(placing, filmPoint(column, row));
    if (next.state === 'done') return { asked, shape: next.shape };
    placing = next.placing;
  }
  throw new Error('not done');
}

describe('placing', () => {
  it('asks for the rim of the head and then for the broken end', () => {
    const { asked, shape } = placeAll(startPlacing('distal-axis', 'head'), [
      [0, 5],
      [5, 0],
      [10, 5],
      [5, 60],
    ]);
    expect(asked).toEqual([
      'distal axis, head rim 1',
      'distal axis, head rim 2',
      'distal axis, head rim 3',
      'distal axis, middle of the broken end',
    ]);
    expect(shape).toEqual({
      construction: 'head',
      rim: [filmPoint(0, 5), filmPoint(5, 0), filmPoint(10, 5)],
      brokenEnd: filmPoint(5, 60),
    });
  });

  it('takes more levels when more are wanted', () => {
    const start = startPlacing('proximal-axis', 'canal', 3);
    expect(nextPoint(start)).toMatchObject({
      key: 'level-1-one',
      number: 1,
      of: 6,
      instruction: 'Proximal axis, level 1, nearest the wrist: tap one inner cortex.',
    });
  });

  it('says how far it is', () => {
    const next = advance(startPlacing('proximal-axis', 'free'), filmPoint(1, 1));
    expect(next.state === 'placing' && placingCaption(next.placing)).toBe(
      'Proximal axis by free line: 1 of 2 points',
    );
  });

  it.each(every)(
    'of a $role as $construction ends with the points as they were placed',
    ({ role, construction }) => {
      fc.assert(
        fc.property(
          fc.integer({ min: 0, max: 2 }).chain((more) => {
            const grows = ['canal', 'cortex-pair', 'dorsal-cortex', 'head', 'circle'].includes(construction);
            const start = startPlacing(role, construction, fewest(construction) + (grows ? more : 0));
            const { of } = nextPoint(start);
            return fc.tuple(fc.constant(start), fc.array(arbitraryPoint, { minLength: of, maxLength: of }));
          }),
          ([start, points]) => {
            let placing = start;
            for (const [index, point] of points.entries()) {
              const { key, fullName } = nextPoint(placing);
              const next = advance(placing, point);
              if (index < points.length - 1) {
                expect(next.state).toBe('placing');
                if (next.state !== 'placing') return;
                expect(placedPoints(next.placing).at(-1)).toEqual({ key, name: fullName, at: point });
                expect(stepBack(next.placing)).toEqual(placing);
                placing = next.placing;
              } else {
                expect(next.state).toBe('done');
                if (next.state !== 'done') return;
                const placed = controlPoints({ role, shape: next.shape });
                expect(placed.map((control) => control.at)).toEqual(points);
                expect(placed.at(-1)).toMatchObject({ key, name: fullName });
              }
            }
          },
        ),
        { numRuns: 20 },
      );
    },
  );

  it('ends when the only point is taken back', () => {
    expect(stepBack(startPlacing('length'))).toBeNull();
  });

  it('refuses a construction that does not suit the role', () => {
    expect(() => startPlacing('proximal-axis', 'head')).toThrow(RangeError);
    expect(() => startPlacing('proximal-axis', 'canal', 1)).toThrow(RangeError);
  });
});
