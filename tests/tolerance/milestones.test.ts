import { describe, expect, it } from 'vitest';
import { RAYS, REGIONS } from '../../src/tolerance/anatomy.ts';
import { suggestedMilestones } from '../../src/tolerance/milestones.ts';

const weeks = (count: number) => count * 7;
const find = (ray: 'small' | 'ring' | 'thumb', region: 'neck' | 'shaft' | 'base' | 'head', id: string) =>
  suggestedMilestones(ray, region).find((milestone) => milestone.id === id);

describe('suggested milestones', () => {
  // Each from the text named beside it in src/tolerance/milestones.ts; times as printed there.
  it.each([
    ['small', 'neck', 'neck-splint', weeks(3), weeks(4)],
    ['ring', 'shaft', 'shaft-film', 5, 7],
    ['ring', 'shaft', 'shaft-splint', weeks(4), weeks(4 + 2)],
    ['ring', 'shaft', 'shaft-healed', weeks(6), weeks(8)],
    ['small', 'base', 'base-cast', weeks(4), weeks(6)],
    ['ring', 'head', 'head-motion', weeks(2), weeks(3)],
    ['thumb', 'shaft', 'thumb-spica', weeks(4), weeks(6)],
    ['ring', 'neck', 'wires-out', weeks(4), weeks(5)],
    ['ring', 'shaft', 'plate-light-work', weeks(4), weeks(8)],
    ['ring', 'shaft', 'plate-unrestricted', weeks(12), weeks(12)],
  ] as const)('%s finger, %s: %s from day %i to day %i', (ray, region, id, fromDay, toDay) => {
    expect(find(ray, region, id)).toMatchObject({ fromDay, toDay });
  });

  it('name a source each, run forwards and have ids of their own', () => {
    for (const ray of RAYS) {
      for (const region of REGIONS) {
        const milestones = suggestedMilestones(ray, region);
        expect(new Set(milestones.map(({ id }) => id)).size).toBe(milestones.length);
        for (const { source, fromDay, toDay } of milestones) {
          expect(source).not.toBe('');
          expect(fromDay).toBeLessThanOrEqual(toDay);
        }
      }
    }
  });

  it('stand in the order of their days, as the chart of the course draws them', () => {
    for (const ray of RAYS)
      for (const region of [...REGIONS, null]) {
        const days = suggestedMilestones(ray, region).map(({ fromDay, toDay }) => [fromDay, toDay] as const);
        expect(days).toEqual(days.toSorted((one, other) => one[0] - other[0] || one[1] - other[1]));
      }
  });

  it('of a finger are not those of a thumb', () => {
    expect(find('thumb', 'shaft', 'shaft-splint')).toBeUndefined();
    expect(find('small', 'neck', 'thumb-spica')).toBeUndefined();
  });

  it('that belong to one bone are not given before the bone is said', () => {
    expect(suggestedMilestones(null, null).map(({ id }) => id)).toEqual(['specialist-review', 'wires-out']);
  });
});
