import { describe, expect, it } from 'vitest';
import type { FilmPoint } from '../../src/geometry/units.ts';
import { inventFilm } from '../../src/phantom/invent.ts';
import { outlinesOfPlan } from '../../src/phantom/outlines.ts';
import { alone, planOf, specOf } from './make.ts';

describe('outlines of a metacarpal', () => {
  // One bone by itself in a parallel beam, without blur or noise: where it begins and ends its own shadow tells.
  it.each(['index', 'small'] as const)('lie where the shadow of the bone begins and ends (%s)', (ray) => {
    const request = alone(ray, 90);
    const plan = planOf(request, 4);
    let drawn = false;
    const { columns, pixels } = inventFilm(specOf(request), () => {
      expect(drawn).toBe(false);
      drawn = true;
      return plan.filmSeed / 4294967296;
    });
    const valueAt = (column: number, row: number) =>
      pixels[Math.floor(row) * columns + Math.floor(column)] ?? 0;
    const ground = valueAt(5, 5);
    /** Walks from well outside towards the middle until the shadow begins. */
    const begins = (edge: FilmPoint, middle: FilmPoint): number => {
      const [dx, dy] = [edge.column - middle.column, edge.row - middle.row];
      const half = Math.hypot(dx, dy);
      for (let at = half + 12; at > 0; at -= 0.25) {
        const value = valueAt(middle.column + (dx / half) * at, middle.row + (dy / half) * at);
        if (Math.abs(value - ground) > 60) return at - half;
      }
      return Number.NaN;
    };
    const stations = outlinesOfPlan(plan)[ray];
    const shaft = stations.slice(Math.round(0.25 * stations.length), Math.round(0.75 * stations.length));
    expect(shaft.length).toBeGreaterThan(15);
    for (const { outer, middle } of shaft) {
      // Pixels of 0.1 mm; the chord at the very edge is short, so the shadow begins a little inside.
      for (const edge of outer) expect(Math.abs(begins(edge, middle))).toBeLessThan(3);
    }
  });

  it('have the cavity inside the bone, the left edge on the left, and a middle between', () => {
    const stations = outlinesOfPlan(planOf(alone('ring', 90), 8)).ring;
    const apart = ([one, other]: readonly [FilmPoint, FilmPoint]) =>
      Math.hypot(one.column - other.column, one.row - other.row);
    for (const { outer, inner, middle } of stations) {
      if (inner !== null) expect(apart(inner)).toBeLessThan(apart(outer));
      expect(middle.column).toBeCloseTo((outer[0].column + outer[1].column) / 2, 9);
    }
    // The fingers point up as displayed, so left of the way to the head is left on the film.
    const shaft = stations[Math.round(stations.length / 2)]!;
    expect(shaft.outer[0].column).toBeLessThan(shaft.outer[1].column);
  });

  it('part at the break, and only there', () => {
    const whole = outlinesOfPlan(planOf({}, 1)).small;
    expect(new Set(whole.map(({ part }) => part))).toEqual(new Set(['proximal']));
    const broken = outlinesOfPlan(
      planOf({ fractures: [{ ray: 'small', region: 'shaft', apexDorsalDegrees: 30 }] }, 1),
    ).small;
    const parts = broken.map(({ part }) => part).join(' ');
    expect(parts).toMatch(/^(proximal )+(distal ?)+$/);
  });
});
