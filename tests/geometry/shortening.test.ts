import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { Segment } from '../../src/geometry/length.ts';
import { stated } from '../../src/geometry/propagate.ts';
import {
  headLineDistance,
  overlapAlong,
  shorteningByHeadLine,
  shorteningByOtherHand,
  shorteningByRatio,
} from '../../src/geometry/shortening.ts';
import { planePoint } from '../../src/geometry/units.ts';
import { errorOf, placed, point, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const pair = z.tuple([z.number(), z.number()]);
const hand = z.object({ broken: z.number(), references: z.array(z.number()) });
const millimetres = {
  kind: 'millimetres',
  relativeStandardUncertainty: 0,
  magnification: null,
} as const;
const known = { text: 'the table', degreesOfFreedom: Infinity };

const examples = workedExamples(
  'shortening',
  z.discriminatedUnion('method', [
    z.object({ method: z.literal('other hand'), here: pair, there: pair }),
    z.object({ method: z.literal('ratio'), here: hand, there: hand }),
    z.object({
      method: z.literal('head line'),
      heads: z.tuple([pair, pair]),
      head: pair,
      proximal: pair,
      there: z.number(),
    }),
    z.object({
      method: z.literal('overlap'),
      axis: z.tuple([pair, pair]),
      proximalTip: pair,
      distalTip: pair,
    }),
  ]),
);

/** Bones of given lengths, each along another 3-4-5 direction. */
const bones = ({ broken, references }: z.infer<typeof hand>) => {
  const bone = (length: number, index: number): Segment => ({
    from: planePoint(30 * index, 5 * index),
    to: planePoint(30 * index + 0.6 * length, 5 * index + 0.8 * length),
  });
  return {
    broken: bone(broken, 0),
    references: references.map((length, index) => bone(length, index + 1)),
    placing: placed(0.5),
  };
};

describe('shortening', () => {
  it.each(examples)('$name', (example) => {
    const { given } = example;
    switch (given.method) {
      case 'other hand': {
        const [here, there] = [given.here, given.there].map(([value, u]) =>
          stated(value, u, 'placing', known),
        );
        if (here === undefined || there === undefined) throw new Error('two hands');
        expectAsPrinted(example, { ...shorteningByOtherHand(here, there), budget: null });
        break;
      }
      case 'ratio': {
        const reading = unwrap(shorteningByRatio(bones(given.here), bones(given.there), millimetres));
        expectAsPrinted(example, { value: reading.value });
        break;
      }
      case 'head line': {
        const [first, second] = given.heads;
        for (const heads of [
          [point(first), point(second)],
          [point(second), point(first)],
        ] as const) {
          const distance = unwrap(
            headLineDistance({
              heads,
              head: point(given.head),
              proximal: point(given.proximal),
              placing: placed(0.5),
              scale: millimetres,
            }),
          );
          const normal = stated(given.there, 0, 'other hand', known);
          const shortening = shorteningByHeadLine(distance, normal);
          expectAsPrinted(example, { distance: distance.value, value: shortening.value });
        }
        break;
      }
      case 'overlap': {
        const reading = unwrap(
          overlapAlong(
            { from: point(given.axis[0]), to: point(given.axis[1]) },
            { proximalFragment: point(given.proximalTip), distalFragment: point(given.distalTip) },
            placed(0.5),
            millimetres,
          ),
        );
        expectAsPrinted(example, { value: reading.value });
        // Both tips move freely along the axis; the axis's own turn adds its part.
        expect(reading.standardUncertainty).toBeGreaterThanOrEqual(0.5 * Math.SQRT2 - 1e-6);
      }
    }
  });

  it('fails as a value where bones are missing, without length, or heads too close', () => {
    const one = bones({ broken: 50, references: [60] });
    const none = bones({ broken: 50, references: [] });
    expect(errorOf(shorteningByRatio(none, none, millimetres)).kind).toBe('no-reference-bones');
    expect(errorOf(shorteningByRatio(one, none, millimetres)).kind).toBe('no-reference-bones');
    const flat = bones({ broken: 0, references: [60] });
    expect(errorOf(shorteningByRatio(one, flat, millimetres)).kind).toBe('points-coincide');
    const heads = [planePoint(0, 0), planePoint(4, 0)] as const;
    const head = { heads, head: planePoint(9, 9), proximal: planePoint(0, 50) };
    expect(errorOf(headLineDistance({ ...head, placing: placed(0.5), scale: millimetres }))).toEqual({
      kind: 'heads-too-close',
      distance: 4,
      neededDistance: 5,
    });
    const at = planePoint(0, 0);
    const tips = { proximalFragment: planePoint(3, 0), distalFragment: planePoint(1, 0) };
    expect(errorOf(overlapAlong({ from: at, to: at }, tips, placed(0.5), millimetres)).kind).toBe(
      'points-coincide',
    );
  });
});
