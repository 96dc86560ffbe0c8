import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { AxisInput } from '../../src/geometry/axis-input.ts';
import { coincidingPoints } from '../../src/geometry/axis-input.ts';
import { bendPlace } from '../../src/geometry/bend-place.ts';
import { planePoint } from '../../src/geometry/units.ts';
import { errorOf, freeAxis, normalDeviates, placed, point, RADIANS, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const pair = z.tuple([z.number(), z.number()]);
const segment = z.tuple([pair, pair]);
type Segment = z.infer<typeof segment>;

const placing = placed(0.5);
const free = ([from, to]: Segment): AxisInput => ({
  kind: 'placed',
  points: { construction: 'free', from: point(from), to: point(to) },
  placing,
});
const between = (
  proximal: Segment,
  distal: Segment,
  bone: Segment,
  angle = { size: 45, standardUncertainty: 2 },
) => {
  const [one, other] = [free(proximal), free(distal)];
  return bendPlace({
    proximal: one,
    distal: other,
    shared: coincidingPoints(one.points, other.points),
    bone: { from: point(bone[0]), to: point(bone[1]) },
    placing,
    angle,
  });
};

const examples = workedExamples(
  'bend-place',
  z.object({ proximal: segment, distal: segment, bone: segment }),
);

describe('the place of the bend', () => {
  it.each(examples)('$name', (example) => {
    const { proximal, distal, bone } = example.given;
    const { value, standardUncertainty } = unwrap(between(proximal, distal, bone));
    expectAsPrinted(example, { percent: value, standardUncertainty });
  });

  it('is the same at any size, turn and mirroring of the film', () => {
    const turned = ([x, y]: readonly [number, number]): [number, number] => [
      7 + 3 * (Math.cos(1) * x - Math.sin(1) * -y),
      -4 + 3 * (Math.sin(1) * x + Math.cos(1) * -y),
    ];
    const all: Segment[] = [
      [
        [5, 0],
        [25, 0],
      ],
      [
        [34, 4],
        [44, 14],
      ],
      [
        [0, 0],
        [40, 30],
      ],
    ];
    const [proximal, distal, bone] = all.map(([from, to]): Segment => [turned(from), turned(to)]);
    expect(unwrap(between(proximal!, distal!, bone!)).value).toBeCloseTo(48, 9);
  });

  it('refuses axes that are parallel for all that is known, with the angle it needs', () => {
    const flat = between(
      [
        [5, 0],
        [25, 0],
      ],
      [
        [30, 1],
        [50, 3],
      ],
      [
        [0, 0],
        [60, 0],
      ],
      {
        size: 14.9,
        standardUncertainty: 2,
      },
    );
    expect(errorOf(flat)).toEqual({ kind: 'nearly-parallel', angle: 14.9, needed: 15 });
    const none = between(
      [
        [5, 0],
        [25, 0],
      ],
      [
        [30, 0],
        [50, 0],
      ],
      [
        [0, 0],
        [60, 0],
      ],
      {
        size: 0,
        standardUncertainty: 0.1,
      },
    );
    expect(errorOf(none).kind).toBe('nearly-parallel');
  });

  it('refuses a crossing beyond the bone, and a bone without a length', () => {
    const beyond = between(
      [
        [5, 0],
        [25, 0],
      ],
      [
        [34, 44],
        [44, 54],
      ],
      [
        [0, 0],
        [60, 0],
      ],
    );
    // The line of the distal axis meets y = 0 at x = −10: −10 / 60.
    expect(errorOf(beyond)).toMatchObject({ kind: 'off-the-bone', percent: expect.closeTo(-100 / 6, 9) });
    const nothing = between(
      [
        [5, 0],
        [25, 0],
      ],
      [
        [34, 4],
        [44, 14],
      ],
      [
        [3, 3],
        [3, 3],
      ],
    );
    expect(errorOf(nothing).kind).toBe('no-length');
  });

  // JCGM 101:2008, clause 7; 10 000 trials fix a share of 0.95 to 0.22 %.
  it.each([7.5, 15])(
    'has an interval that holds the truth 94 to 96 times in 100 at %s times the uncertainty of the angle',
    (times) => {
      const deviate = normalDeviates(20_261_203);
      // 40 and 30 mm, each end placed to 0.5 mm per coordinate: 0.5 √2 √(1/40² + 1/30²) rad.
      const uncertainty = (0.5 * Math.SQRT2 * Math.hypot(1 / 40, 1 / 30)) / RADIANS;
      const angle = { size: times * uncertainty, standardUncertainty: uncertainty };
      const distal = freeAxis([30, 0], 30, angle.size);
      const misplaced = ({ x, y }: { readonly x: number; readonly y: number }) =>
        planePoint(x + 0.5 * deviate(), y + 0.5 * deviate());
      let held = 0;
      let refused = 0;
      for (let trial = 0; trial < 10_000; trial += 1) {
        const axis = (from: ReturnType<typeof planePoint>, to: ReturnType<typeof planePoint>): AxisInput => ({
          kind: 'placed',
          points: { construction: 'free', from: misplaced(from), to: misplaced(to) },
          placing,
        });
        const read = bendPlace({
          proximal: axis(planePoint(-15, 0), planePoint(25, 0)),
          distal: axis(distal.from, distal.to),
          shared: [],
          bone: { from: misplaced(planePoint(-15, 0)), to: misplaced(planePoint(60, 0)) },
          placing,
          angle,
        });
        // The distal line runs through (30, 0): 45 of 75 mm.
        if (!read.ok) {
          refused += 1;
          continue;
        }
        const { value, expandedUncertainty } = read.value;
        if (Math.abs(value - 60) <= expandedUncertainty) held += 1;
      }
      // A crossing beyond the bone gives no interval.
      expect(refused).toBeLessThan(20);
      const share = held / (10_000 - refused);
      expect(share).toBeGreaterThan(0.94);
      expect(share).toBeLessThan(0.96);
    },
  );
});
