import { describe, expect, it } from 'vitest';
import { RAYS, REGIONS } from '../../src/tolerance/anatomy.ts';
import { LIMIT_QUANTITIES } from '../../src/tolerance/limit-set.ts';
import { ticksFor } from '../../src/tolerance/ticks.ts';

/** As printed by each text, from the strictest up; [lo, hi] and a word of its citation. */
const PRINTED = [
  [15, 15, 'osteotomies'],
  [17, 17, 'Namik Kemal'],
  [20, 20, 'Wheeless'],
  [30, 30, 'PMID 21161877'],
  [35, 40, 'American Board of Family Medicine'],
  [40, 40, 'Atlas of Emergency Medicine'],
  [44, 44, 'Namik Kemal'],
  [45, 45, 'Northwestern'],
  [45, 45, '0850209c'],
  [45, 45, 'MSD Manual'],
  [50, 50, 'Corwell'],
  [50, 60, '10.1007/978-3-319-78387-1_47'],
  [70, 70, 'van Aaken'],
  [70, 70, 'PMID 21161877'],
] as const;

describe('ticks of the small finger neck', () => {
  const ticks = ticksFor('small', 'neck', 'apex-dorsal');

  it('are the published numbers, each with its source, from the strictest up', () => {
    expect(ticks.map(({ lo, hi }) => [lo, hi])).toEqual(PRINTED.map(([lo, hi]) => [lo, hi]));
    PRINTED.forEach(([, , word], index) => {
      expect(ticks[index]?.citation).toContain(word);
      expect(ticks[index]?.meaning).not.toBe('');
    });
    expect(new Set(ticks.map((tick) => tick.id)).size).toBe(ticks.length);
  });

  it('belong to no other bone or quantity', () => {
    for (const ray of RAYS)
      for (const region of REGIONS)
        for (const quantity of LIMIT_QUANTITIES)
          if (ray !== 'small' || region !== 'neck' || quantity !== 'apex-dorsal')
            expect(ticksFor(ray, region, quantity)).toEqual([]);
  });
});
