import { describe, expect, it } from 'vitest';
import type { Dial } from '../../src/classroom/dial.ts';
import { DIAL_GROUPS, DIALS, dialOf, isIdle } from '../../src/classroom/dials.ts';
import { LEVELS, randomFilm } from '../../src/classroom/levels.ts';
import { seededRandom } from '../../src/phantom/random.ts';
import { type InventedFilmSpec, parseSpec } from '../../src/phantom/spec.ts';
import { specOf } from '../phantom/make.ts';
import { NECK } from './learner.ts';

/** A film on which every dial has something to turn: a break, a beam from a point, a ball. */
const READY = specOf({ ...NECK, beam: { kind: 'cone' }, extras: { knownObject: { diameterMm: 25 } } });

const settings = (dial: Dial): readonly (number | string)[] =>
  dial.kind === 'slider' ? [dial.from, dial.to] : dial.options.map(({ value }) => value);

const turned = (dial: Dial, spec: InventedFilmSpec, to: number | string): InventedFilmSpec =>
  dial.kind === 'slider' ? dial.set(spec, to as number) : dial.set(spec, to as string);

describe('every dial of the film maker', () => {
  it.each(DIALS.map((dial) => [dial.id, dial] as const))(
    '%s shows what it was set to, and keeps the film one that can be drawn',
    (_, dial) => {
      for (const to of settings(dial)) {
        const spec = turned(dial, READY, to);
        const shown = dial.get(spec);
        if (typeof to === 'number') expect(shown as number).toBeCloseTo(to, 6);
        else expect(shown).toBe(to);
        expect(parseSpec(spec).ok).toBe(true);
      }
    },
  );

  it('changes something of the film at its two ends', () => {
    for (const dial of DIALS) {
      const [first, ...others] = settings(dial);
      const one = JSON.stringify(turned(dial, READY, first!));
      expect(
        others.some((to) => JSON.stringify(turned(dial, READY, to)) !== one),
        dial.id,
      ).toBe(true);
    }
  });

  it('belongs to a group that is shown, and has an id of its own', () => {
    const groups = new Set(DIAL_GROUPS.map(({ id }) => id));
    expect(DIALS.every(({ group }) => groups.has(group))).toBe(true);
    expect(new Set(DIALS.map(({ id }) => id)).size).toBe(DIALS.length);
    expect(() => dialOf('no such dial')).toThrow(/no such dial/);
  });

  it('stands idle where there is nothing to turn', () => {
    const whole = specOf({ ...NECK, fractures: [] });
    expect(isIdle(dialOf('apexDorsal'), whole)).toBe(true);
    expect(isIdle(dialOf('apexDorsal'), specOf(NECK))).toBe(false);
    expect(isIdle(dialOf('lift'), specOf(NECK))).toBe(true); // NECK has a parallel beam
    expect(turned(dialOf('apexDorsal'), whole, 60)).toEqual(whole);
  });
});

describe('a film of a level, by chance', () => {
  it('is the same for the same seed and another for another', () => {
    for (const level of LEVELS) {
      expect(randomFilm(level, seededRandom(5))).toEqual(randomFilm(level, seededRandom(5)));
      expect(randomFilm(level, seededRandom(5))).not.toEqual(randomFilm(level, seededRandom(6)));
    }
  });

  it('gets harder: less light, thinner bone, views farther off', () => {
    const films = (level: (typeof LEVELS)[number]) =>
      Array.from({ length: 200 }, (_, seed) => randomFilm(level, seededRandom(seed)));
    const mean = (specs: readonly InventedFilmSpec[], of: (spec: InventedFilmSpec) => number) =>
      specs.reduce((sum, spec) => sum + of(spec), 0) / specs.length;
    const [first, everyday, hard] = LEVELS.map(films) as [
      InventedFilmSpec[],
      InventedFilmSpec[],
      InventedFilmSpec[],
    ];
    const off = ({ view: { turnDegrees } }: InventedFilmSpec) =>
      Math.min(Math.abs(turnDegrees), Math.abs(turnDegrees - 97));
    for (const of of [
      ({ exposure }: InventedFilmSpec) => -exposure.photonsPerPixel,
      ({ hand }: InventedFilmSpec) => -hand.boneDensity,
      off,
    ]) {
      expect(mean(first, of)).toBeLessThan(mean(everyday, of));
      expect(mean(everyday, of)).toBeLessThan(mean(hard, of));
    }
    // First steps: a true view and a ring or small finger, as the level says of itself.
    expect(first.every((spec) => off(spec) <= 3)).toBe(true);
    expect(first.every(({ fractures }) => ['ring', 'small'].includes(fractures[0]!.ray))).toBe(true);
  });
});
