import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reversed } from '../../src/geometry/axis.ts';
import { LEAST_ORIENTATION_MARGIN, orientPair } from '../../src/geometry/orient.ts';
import { between, freeAxis as freePoints } from './support.ts';

const freeAxis = (...given: Parameters<typeof freePoints>) => {
  const { from, to } = freePoints(...given);
  return { from, to };
};

describe('orientation from proximal to distal', () => {
  it('is the same whichever way the axes were clicked, while they meet end to end below 90 degrees', () => {
    fc.assert(
      fc.property(
        between(-85, 85),
        between(-180, 180),
        fc.tuple(between(15, 60), between(15, 60)),
        (turn, start, lengths) => {
          const proximal = freeAxis([3, 4], lengths[0], start);
          const distal = freeAxis([proximal.to.x, proximal.to.y], lengths[1], start + turn);
          const clicked = orientPair(proximal, distal);
          expect(clicked).toMatchObject({ proximalReversed: false, distalReversed: false });
          const other = orientPair(reversed(proximal), reversed(distal));
          expect(other).toMatchObject({ proximalReversed: true, distalReversed: true });
          expect(other.proximal).toEqual(clicked.proximal);
          expect(other.distal).toEqual(clicked.distal);
          expect(other.margin).toBeCloseTo(clicked.margin, 6);
        },
      ),
    );
  });

  it('says that it is unsure of fragments lying side by side, or with their middles in one place', () => {
    const bayonet = orientPair(freeAxis([0, 0], 40, 0), freeAxis([3, 8], 40, 0));
    expect(bayonet.margin).toBeGreaterThan(0);
    // The join runs from (20, 0) to (23, 8): 69.4 degrees off the axis, margin 20.6.
    expect(bayonet.margin).toBeCloseTo((Math.atan2(3, 8) * 180) / Math.PI, 9);
    const beside = orientPair(freeAxis([0, 0], 40, 0), freeAxis([0.5, 8], 40, 0));
    expect(beside.margin).toBeLessThan(LEAST_ORIENTATION_MARGIN);
    const crossed = orientPair(freeAxis([0, 0], 40, 0), freeAxis([20, -20], 40, 90));
    expect(crossed.margin).toBe(0);
  });

  it('is wrong where it says it would be: a long fragment bent past a right angle', () => {
    // Documented limit. Distal fragment three times as long, bent 120 degrees: its middle lies behind the fracture.
    const bent = orientPair(freeAxis([0, 0], 20, 0), freeAxis([20, 0], 60, 120));
    expect(bent.proximalReversed).toBe(true);
  });
});
