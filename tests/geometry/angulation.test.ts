import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type AngulationInput, angulation } from '../../src/geometry/angulation.ts';
import { coincidingPoints } from '../../src/geometry/axis-input.ts';
import type { AxisPoints } from '../../src/geometry/constructions.ts';
import { degrees, planePoint } from '../../src/geometry/units.ts';
import { between, errorOf, freeAxis, placed, point, RADIANS, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const pair = z.tuple([z.number(), z.number()]);
const segment = z.tuple([pair, pair]);
const free = ([from, to]: readonly [readonly [number, number], readonly [number, number]]): AxisPoints => ({
  construction: 'free',
  from: point(from),
  to: point(to),
});

const read = (
  proximal: AxisPoints,
  distal: AxisPoints,
  more: { sigma?: number; tapped?: AngulationInput['tapped']; shared?: AngulationInput['shared'] } = {},
) =>
  angulation({
    proximal: { kind: 'placed', points: proximal, placing: placed(more.sigma ?? 0.5) },
    distal: { kind: 'placed', points: distal, placing: placed(more.sigma ?? 0.5) },
    tapped: more.tapped ?? null,
    shared: more.shared ?? [],
  });

const examples = workedExamples(
  'angulation',
  z.object({
    proximal: segment,
    distal: segment,
    side: z.tuple([z.enum(['dorsal', 'radial']), pair]).nullable(),
  }),
);

describe('angulation', () => {
  it.each(examples)('$name', (example) => {
    const { proximal, distal, side } = example.given;
    const tapped = side === null ? null : { side: side[0], at: point(side[1]) };
    const reading = unwrap(read(free(proximal), free(distal), { tapped }));
    expectAsPrinted(example, { value: reading.value });
    expect(reading.signed).toBe(side !== null);

    // Mirrored left to right, side tapped and all, the bone is bent the same way.
    const mirror = ([x, y]: readonly [number, number]) => [-x, y] as const;
    const mirrored = unwrap(
      read(free([mirror(proximal[0]), mirror(proximal[1])]), free([mirror(distal[0]), mirror(distal[1])]), {
        tapped: side === null ? null : { side: side[0], at: point(mirror(side[1])) },
      }),
    );
    expectAsPrinted(example, { value: mirrored.value });
    expect(mirrored.apex).toBe(reading.apex);

    // Clicked from the wrong end, both axes are the same bone.
    const swapped = unwrap(read(free([proximal[1], proximal[0]]), free([distal[1], distal[0]]), { tapped }));
    expectAsPrinted(example, { value: swapped.value });
  });

  it.each([
    ['dorsal', 20, 'apex dorsal'],
    ['dorsal', -20, 'apex volar'],
    ['radial', 20, 'apex radial'],
    ['radial', -20, 'apex ulnar'],
  ] as const)('names a bone whose %s side is up and whose end turns by %d degrees %s', (side, turn, apex) => {
    const reading = unwrap(
      read(freeAxis([0, 0], 40, 0), freeAxis([42, 0], 30, turn), {
        tapped: { side, at: planePoint(20, -15) },
      }),
    );
    expect(reading.apex).toBe(apex);
    expect(reading.value).toBeCloseTo(turn, 9);
  });

  it('finds the same side beside a steep distal fragment, where the proximal axis drawn on would mislead', () => {
    // Distal fragment straight down from (30, 0): its dorsal side is to the right, below the proximal axis's line.
    const shape = [freeAxis([0, 0], 30, 0), freeAxis([30, 0], 30, 80)] as const;
    const beside = unwrap(read(...shape, { tapped: { side: 'dorsal', at: planePoint(50, 25) } }));
    const above = unwrap(read(...shape, { tapped: { side: 'dorsal', at: planePoint(15, -10) } }));
    expect(beside.apex).toBe('apex dorsal');
    expect(above.apex).toBe('apex dorsal');
  });

  it('refuses a tap that could lie on either side, with both distances', () => {
    const failed = errorOf(
      read(freeAxis([0, 0], 40, 0), freeAxis([42, 0], 30, 20), {
        tapped: { side: 'dorsal', at: planePoint(20, -1) },
      }),
    );
    expect(failed).toEqual({ kind: 'side-on-axis', distance: 1, neededDistance: 2 });
  });

  it('says which axis failed, why, and by how much', () => {
    const failed = errorOf(read(freeAxis([0, 0], 2, 0), freeAxis([42, 0], 30, 20)));
    expect(failed).toEqual({
      kind: 'axis',
      which: 'proximal',
      failure: { kind: 'axis-too-short', length: 2, neededLength: 2.5 },
    });
  });

  it('states the uncertainty of two axes that run against one another, where the angle jumps from 180 to −180', () => {
    const reading = unwrap(read(freeAxis([0, 0], 40, 90), freeAxis([30, 40], 40, -90)));
    expect(reading.value).toBeCloseTo(180, 9);
    // Both axes 40 mm, 0.5 mm: 0.5 · 2 / 40 rad = 1.43239° as anywhere else.
    expect(reading.standardUncertainty).toBeCloseTo(1.43239, 4);
    expect(reading.flags.directionUnsure).toBe(true);
  });

  it('flags an axis shorter than twenty placing errors and no longer one', () => {
    const reading = unwrap(read(freeAxis([0, 0], 9.9, 0), freeAxis([12, 0], 10.1, 20)));
    expect(reading.flags).toMatchObject({ proximalShortForPlacing: true, distalShortForPlacing: false });
  });

  it('takes the tracer’s uncertainty in place of the placing error', () => {
    const reading = unwrap(
      angulation({
        proximal: {
          kind: 'traced',
          points: freeAxis([0, 0], 40, 0),
          placing: placed(0.5),
          directionUncertainty: degrees(3),
          basis: { text: 'tracer', degreesOfFreedom: Infinity },
        },
        distal: {
          kind: 'traced',
          points: freeAxis([42, 0], 30, 20),
          placing: placed(0.5),
          directionUncertainty: degrees(4),
          basis: { text: 'tracer', degreesOfFreedom: Infinity },
        },
        tapped: null,
      }),
    );
    expect(reading.value).toBeCloseTo(20, 9);
    expect(reading.standardUncertainty).toBeCloseTo(5, 9); // 3-4-5
    expect(reading.budget.map((line) => line.source)).toEqual([
      'tracing the proximal axis',
      'tracing the distal axis',
    ]);
  });
});

const uncertain = workedExamples(
  'angulation-uncertainty',
  z.object({ lengths: pair, sigma: z.number(), shared: z.boolean() }),
);

describe('uncertainty of the angulation', () => {
  it.each(uncertain)('$name', (example) => {
    const { lengths, sigma, shared } = example.given;
    const proximal = freeAxis([0, 0], lengths[0], 0);
    const distal = freeAxis([lengths[0], 0], lengths[1], 0);
    const reading = unwrap(
      read(proximal, distal, { sigma, shared: shared ? coincidingPoints(proximal, distal) : [] }),
    );
    expectAsPrinted(example, { standardUncertainty: reading.standardUncertainty });
    expect(reading.budget.reduce((sum, line) => sum + line.share, 0)).toBeCloseTo(1, 9);
  });
});

describe('angulation of any two axes that meet', () => {
  const turn = between(-75, 75);
  const bone: fc.Arbitrary<Bone> = fc.record({
    turn,
    start: between(-180, 180),
    x: between(-200, 200),
    y: between(-200, 200),
    lengths: fc.tuple(between(20, 60), between(20, 60)),
    shuffle: fc.tuple(fc.boolean(), fc.boolean()),
  });
  interface Bone {
    readonly turn: number;
    readonly start: number;
    readonly x: number;
    readonly y: number;
    readonly lengths: readonly [number, number];
    readonly shuffle: readonly [boolean, boolean];
  }
  const built = ({ turn: bend, start, x, y, lengths, shuffle }: Bone) => {
    const proximal = freeAxis([x, y], lengths[0], start);
    const distal = freeAxis([proximal.to.x, proximal.to.y], lengths[1], start + bend);
    const flip = (axis: typeof proximal, turned: boolean) =>
      turned ? { ...axis, from: axis.to, to: axis.from } : axis;
    return [flip(proximal, shuffle[0]), flip(distal, shuffle[1])] as const;
  };
  const move = (shape: AxisPoints, f: (x: number, y: number) => readonly [number, number]): AxisPoints => {
    if (shape.construction !== 'free') throw new Error('free axes only');
    return {
      construction: 'free',
      from: point(f(shape.from.x, shape.from.y)),
      to: point(f(shape.to.x, shape.to.y)),
    };
  };

  it('is the angle they were built with, whichever way the points were clicked', () => {
    fc.assert(
      fc.property(bone, (made) => {
        expect(unwrap(read(...built(made))).value).toBeCloseTo(Math.abs(made.turn), 7);
      }),
    );
  });

  it('does not change when the film is moved, magnified or turned', () => {
    fc.assert(
      fc.property(bone, between(-500, 500), between(0.2, 5), between(-180, 180), (made, by, times, about) => {
        const [c, s] = [Math.cos(about * RADIANS), Math.sin(about * RADIANS)];
        const moved = built(made).map((axis) =>
          move(axis, (x, y) => [times * (c * x - s * y) + by, times * (s * x + c * y) - by]),
        ) as [AxisPoints, AxisPoints];
        const reading = unwrap(read(...moved, { sigma: 0.5 * times }));
        const still = unwrap(read(...built(made)));
        expect(reading.value).toBeCloseTo(Math.abs(made.turn), 6);
        // Magnifying the placing error along leaves the uncertainty as it was.
        expect(reading.standardUncertainty).toBeCloseTo(still.standardUncertainty, 5);
      }),
    );
  });

  it('changes sign when the side that was tapped is the other one', () => {
    fc.assert(
      fc.property(
        bone.filter(({ turn: bend }) => Math.abs(bend) > 0.01),
        (made) => {
          const axes = built(made);
          const across = made.start * RADIANS + Math.PI / 2;
          const middle = [(axes[0].from.x + axes[0].to.x) / 2, (axes[0].from.y + axes[0].to.y) / 2] as const;
          const tap = (distance: number) => ({
            side: 'dorsal' as const,
            at: planePoint(middle[0] + distance * Math.cos(across), middle[1] + distance * Math.sin(across)),
          });
          const one = unwrap(read(...axes, { tapped: tap(5) }));
          const other = unwrap(read(...axes, { tapped: tap(-5) }));
          expect(one.value).toBeCloseTo(-other.value, 9);
          expect([one.apex, other.apex].sort()).toEqual(['apex dorsal', 'apex volar']);
        },
      ),
    );
  });

  it('grows surer with longer axes and less sure in proportion to the placing error', () => {
    fc.assert(
      fc.property(bone, between(1.1, 3), (made, times) => {
        const still = unwrap(read(...built(made)));
        const longer = unwrap(
          read(...built({ ...made, lengths: [made.lengths[0] * times, made.lengths[1] * times] })),
        );
        expect(longer.standardUncertainty).toBeCloseTo(still.standardUncertainty / times, 5);
        const surer = unwrap(read(...built(made), { sigma: 0.25 }));
        expect(surer.standardUncertainty).toBeCloseTo(still.standardUncertainty / 2, 5);
      }),
    );
  });
});
