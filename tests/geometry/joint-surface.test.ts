import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { jointSurface } from '../../src/geometry/joint-surface.ts';
import { planePoint } from '../../src/geometry/units.ts';
import { errorOf, placed, point, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const segment = z.tuple([z.tuple([z.number(), z.number()]), z.tuple([z.number(), z.number()])]);
const millimetres = {
  kind: 'millimetres',
  relativeStandardUncertainty: 0,
  magnification: null,
} as const;
const examples = workedExamples('joint-surface', z.object({ surface: segment, edges: segment }));

describe('joint surface', () => {
  it.each(examples)('$name', (example) => {
    const { surface, edges } = example.given;
    for (const [one, other] of [edges, [edges[1], edges[0]]] as const) {
      for (const [from, to] of [surface, [surface[1], surface[0]]] as const) {
        const { step, gap } = unwrap(
          jointSurface(
            { from: point(from), to: point(to) },
            { one: point(one), other: point(other) },
            placed(0.5),
            millimetres,
          ),
        );
        expectAsPrinted(example, { step: step.value, gap: gap.value });
      }
    }
  });

  it('leaves room for a level surface in the interval of a small step', () => {
    const { step } = unwrap(
      jointSurface(
        { from: planePoint(0, 0), to: planePoint(10, 0) },
        { one: planePoint(10, 0), other: planePoint(11, 0.8) },
        placed(0.5),
        millimetres,
      ),
    );
    expect(step.value - step.expandedUncertainty).toBeLessThan(0);
  });

  it('refuses a surface shorter than five placing errors', () => {
    const short = { from: planePoint(0, 0), to: planePoint(2, 0) };
    const edges = { one: planePoint(2, 0), other: planePoint(3, 1) };
    expect(errorOf(jointSurface(short, edges, placed(0.5), millimetres))).toEqual({
      kind: 'surface-too-short',
      length: 2,
      neededLength: 2.5,
    });
  });
});
