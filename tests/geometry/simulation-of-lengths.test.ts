import { describe, it } from 'vitest';
import { jointSurface } from '../../src/geometry/joint-surface.ts';
import { segmentLength } from '../../src/geometry/length.ts';
import { orientPair } from '../../src/geometry/orient.ts';
import { headLineDistance, overlapAlong, shorteningByRatio } from '../../src/geometry/shortening.ts';
import { translation } from '../../src/geometry/translation.ts';
import type { PlanePoint } from '../../src/geometry/units.ts';
import { deviate, expectSpread, FEWER, half, jitter, mm, p, SIGMA } from './simulated.ts';
import { placed, unwrap } from './support.ts';

describe('lengths against simulation', () => {
  it('a segment with uncertain spacing and magnification', () => {
    const [from, to] = [p(0, 0), p(40, 30)];
    const magnification = { least: 1.01, most: 1.03, basis: 'test' };
    const reading = unwrap(
      segmentLength({ from, to }, half, {
        kind: 'millimetres',
        relativeStandardUncertainty: 0.01,
        magnification,
      }),
    );
    // Evenly over the range: steps of the golden ratio leave no gaps and no clusters.
    let turn = 0;
    const uniform = () => {
      turn = (turn + 0.618033988749895) % 1;
      return 1.01 + 0.02 * turn;
    };
    expectSpread(reading.standardUncertainty, () => {
      const [a, b] = [jitter(from, SIGMA), jitter(to, SIGMA)];
      return (Math.hypot(b.x - a.x, b.y - a.y) * (1 + 0.01 * deviate())) / uniform();
    });
  });

  it('a share of a bone that has one end in common', () => {
    const bone = { from: p(0, 0), to: p(2, 60) };
    const to = p(1, 25);
    const reading = unwrap(segmentLength({ from: bone.from, to }, half, { kind: 'share', bone }));
    expectSpread(reading.standardUncertainty, () => {
      const [a, b, c] = [bone.from, bone.to, to].map((at) => jitter(at, SIGMA)) as [
        PlanePoint,
        PlanePoint,
        PlanePoint,
      ];
      return (100 * Math.hypot(c.x - a.x, c.y - a.y)) / Math.hypot(b.x - a.x, b.y - a.y);
    });
  });

  it('step and gap', () => {
    const [surface, edges] = [
      [p(0, 0), p(9, 1)],
      [p(9, 1.2), p(11, 4)],
    ] as const;
    const read = (at: (point: PlanePoint) => PlanePoint) =>
      unwrap(
        jointSurface(
          { from: at(surface[0]), to: at(surface[1]) },
          { one: at(edges[0]), other: at(edges[1]) },
          placed(0.2),
          mm,
        ),
      );
    const still = read((at) => at);
    expectSpread(still.step.standardUncertainty, () => read((at) => jitter(at, 0.2)).step.onFilm, FEWER);
    expectSpread(still.gap.standardUncertainty, () => read((at) => jitter(at, 0.2)).gap.onFilm, FEWER);
  });

  it('translation in millimetres and as a share of the shaft', () => {
    const read = (at: (point: PlanePoint) => PlanePoint) =>
      unwrap(
        translation({
          axes: orientPair(
            { from: at(p(0, 0)), to: at(p(30, 0)) },
            { from: at(p(34, 5)), to: at(p(60, 14)) },
          ),
          fracture: at(p(32, 2)),
          shaftWidth: { from: at(p(28, -4.5)), to: at(p(28, 4.5)) },
          placing: placed(0.3),
          scale: mm,
          side: null,
        }),
      );
    const still = read((at) => at);
    expectSpread(still.offset.standardUncertainty, () => read((at) => jitter(at, 0.3)).offset.onFilm, FEWER);
    expectSpread(
      still.ofShaftWidth.standardUncertainty,
      () => read((at) => jitter(at, 0.3)).ofShaftWidth.value,
      FEWER,
    );
  });

  it('shortening by ratio', () => {
    const bone = (x: number, length: number) => [p(x, 0), p(x + 2, length)] as const;
    const hands = {
      here: [bone(0, 50), bone(20, 62), bone(40, 58)],
      there: [bone(0, 53), bone(20, 61), bone(40, 59)],
    };
    const ratio = (at: (point: PlanePoint) => PlanePoint) => {
      const hand = (bones: typeof hands.here) => {
        const [broken, ...references] = bones.map(([from, to]) => ({ from: at(from), to: at(to) }));
        if (broken === undefined) throw new Error('no bones');
        return { broken, references, placing: half };
      };
      return unwrap(shorteningByRatio(hand(hands.here), hand(hands.there), mm));
    };
    expectSpread(ratio((at) => at).standardUncertainty, () => ratio((at) => jitter(at, SIGMA)).onFilm, FEWER);
  });

  it('distance below the head line', () => {
    const line = (at: (point: PlanePoint) => PlanePoint) =>
      unwrap(
        headLineDistance({
          heads: [at(p(0, 0)), at(p(19, 3))],
          head: at(p(38, 12)),
          proximal: p(10, 60),
          placing: half,
          scale: mm,
        }),
      );
    expectSpread(line((at) => at).standardUncertainty, () => line((at) => jitter(at, SIGMA)).onFilm, FEWER);
  });

  it('overlap along the axis', () => {
    const overlap = (at: (point: PlanePoint) => PlanePoint) =>
      unwrap(
        overlapAlong(
          { from: at(p(0, 0)), to: at(p(30, 2)) },
          { proximalFragment: at(p(38, 5)), distalFragment: at(p(33, -2)) },
          half,
          mm,
        ),
      );
    expectSpread(
      overlap((at) => at).standardUncertainty,
      () => overlap((at) => jitter(at, SIGMA)).onFilm,
      FEWER,
    );
  });
});
