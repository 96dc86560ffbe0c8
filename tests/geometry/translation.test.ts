import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { orientPair } from '../../src/geometry/orient.ts';
import { translation } from '../../src/geometry/translation.ts';
import { planePoint } from '../../src/geometry/units.ts';
import { errorOf, freeAxis, placed, point, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const pair = z.tuple([z.number(), z.number()]);
const segment = z.tuple([pair, pair]);
const millimetres = {
  kind: 'millimetres',
  relativeStandardUncertainty: 0,
  magnification: null,
} as const;

const examples = workedExamples(
  'translation',
  z.object({
    proximal: segment,
    distal: segment,
    fracture: pair,
    width: segment,
    side: pair.nullable(),
  }),
);

describe('translation at the fracture', () => {
  it.each(examples)('$name', (example) => {
    const { proximal, distal, fracture, width, side } = example.given;
    const read = (mirror: 1 | -1) => {
      const at = ([x, y]: readonly [number, number]) => planePoint(x, mirror * y);
      return unwrap(
        translation({
          axes: orientPair(
            { from: at(proximal[1]), to: at(proximal[0]) },
            { from: at(distal[0]), to: at(distal[1]) },
          ),
          fracture: at(fracture),
          shaftWidth: { from: at(width[0]), to: at(width[1]) },
          placing: placed(0.5),
          scale: millimetres,
          side: side === null ? null : at(side),
        }),
      );
    };
    for (const reading of [read(1), read(-1)]) {
      const sense = reading.way === null ? null : reading.way === 'towards the tapped side' ? 1 : -1;
      expectAsPrinted(example, {
        offset: reading.offset.value,
        percent: reading.ofShaftWidth.value,
        sense,
      });
    }
  });

  it('refuses steep axes with the angle, and a width of nothing', () => {
    const input = {
      axes: orientPair(freeAxis([0, 0], 30, 0), freeAxis([30, 0], 30, 61)),
      fracture: planePoint(30, 0),
      shaftWidth: { from: planePoint(29, -4), to: planePoint(29, 4) },
      placing: placed(0.5),
      scale: millimetres,
      side: null,
    };
    expect(errorOf(translation(input))).toEqual({
      kind: 'too-steep',
      angle: expect.closeTo(61, 9),
      limit: 60,
    });
    const axes = orientPair(freeAxis([0, 0], 30, 0), freeAxis([30, 0], 30, 10));
    const along = { from: planePoint(20, 4), to: planePoint(29, 4) };
    expect(errorOf(translation({ ...input, axes, shaftWidth: along })).kind).toBe('no-shaft-width');
    expect(
      errorOf(translation({ ...input, axes, shaftWidth: { from: point([1, 1]), to: point([1, 1]) } })).kind,
    ).toBe('no-shaft-width');
  });
});
