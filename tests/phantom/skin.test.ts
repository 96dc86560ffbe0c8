import { describe, expect, it } from 'vitest';
import { type DefaultSpecName, defaultSpec } from '../../src/phantom/default-specs.ts';
import { framing } from '../../src/phantom/framing.ts';
import { buildHand } from '../../src/phantom/hand.ts';
import { placeSkin, SkinWalker } from '../../src/phantom/soft-tissue.ts';

const STEP_MM = 0.25;
const ROWS_MM = 4;

/**
 * Where the thickness of the hand rises most steeply in front of the metacarpals, from the knuckles down to
 * the wrist: the border of the palm in a lateral, mm from the middle of the film towards the back of the hand.
 */
function palmBorder(name: DefaultSpecName, seed: number, towardsBack: 1 | -1) {
  const spec = defaultSpec(name);
  const hand = buildHand(spec, seed);
  const { camera } = framing(spec, hand, 1);
  const walker = new SkinWalker(placeSkin(hand.skin, camera), camera.sourceMm);
  const passage = { insideMm: 0, fatMm: 0, missMm: 0 };
  const lengthAt = (x: number, y: number): number => {
    walker.follow(towardsBack * x, y, passage);
    return passage.insideMm;
  };
  return Array.from({ length: 13 }, (_, i) => {
    const y = 4 - i * ROWS_MM;
    const rises = Array.from({ length: 88 }, (_, k) => {
      const x = 5 + k * STEP_MM;
      const before = lengthAt(x, y);
      return { x, rise: before === 0 ? 0 : lengthAt(x + STEP_MM, y) - before };
    });
    return rises.reduce((most, each) => (each.rise > most.rise ? each : most));
  });
}

describe('the palm in a lateral', () => {
  // Common practice, no source: on a lateral the balls of the thumb and small finger end in curves. A border
  // that stays within half a millimetre over 16 mm looks like a sheet that was cut.
  it.each([
    ['small-neck-lateral', 11, 1],
    ['ring-shaft-lateral', 3, 1],
    ['other-hand-lateral', 5, -1],
  ] as const)('has a curved border in %s', (name, seed, towardsBack) => {
    const border = palmBorder(name, seed, towardsBack);
    for (const { rise } of border) expect(rise).toBeGreaterThan(2);
    for (let i = 0; i + 4 < border.length; i += 1) {
      const xs = border.slice(i, i + 5).map(({ x }) => x);
      expect(Math.max(...xs) - Math.min(...xs), `from row ${i}`).toBeGreaterThan(0.5);
    }
  });
});
