import { z } from 'zod';
import type { FilmPoint } from '../geometry/units.ts';
import { fewest } from './shape-points.ts';

// Before the first schema: zod otherwise compiles validators from strings, which the page's
// Content-Security-Policy forbids.
z.config({ jitless: true });

/*
 * Points and shapes of marks as data. Coordinates may lie outside the film: an axis may be drawn beyond its edge.
 */

export const point = z.looseObject({ column: z.number(), row: z.number() }).meta({
  id: 'Point',
  description:
    'In pixels of the film as stored: column to the right, row down; the centre of the first pixel is (0.5, 0.5).',
}) as unknown as z.ZodType<FilmPoint>;

const level = z.looseObject({ one: point, other: point });
const two = z.looseObject({ construction: z.enum(['free', 'segment']), from: point, to: point });
const levels = z.looseObject({
  construction: z.enum(['cortex-pair', 'canal']),
  levels: z.array(level).min(fewest('canal'), 'has fewer than two levels'),
});
const cortex = z.looseObject({
  construction: z.literal('dorsal-cortex'),
  points: z.array(point).min(fewest('dorsal-cortex'), 'has fewer than two points'),
});
const head = z.looseObject({
  construction: z.literal('head'),
  rim: z.array(point).min(fewest('head'), 'has fewer than three points'),
  brokenEnd: point,
});
const circle = z.looseObject({
  construction: z.literal('circle'),
  rim: z.array(point).min(fewest('circle'), 'has fewer than three points'),
});
const single = z.looseObject({ construction: z.literal('point'), at: point });
export const shape = z.discriminatedUnion('construction', [two, levels, cortex, head, circle, single]).meta({
  id: 'Shape',
  description: 'The points of a mark, from proximal to distal where it has a direction.',
});
