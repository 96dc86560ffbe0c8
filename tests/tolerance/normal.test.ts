import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { coverageFactor } from '../../src/geometry/distributions.ts';
import {
  CONSTRUCTIONS,
  type Construction,
  RAYS,
  type Ray,
  REGIONS,
  type Region,
  VIEWS,
  type View,
} from '../../src/tolerance/anatomy.ts';
import { publishedNormal } from '../../src/tolerance/normal.ts';
import { normalBend } from '../../src/tolerance/normal-bend.ts';
import { NORMAL_TABLES } from '../../src/tolerance/normal-tables.ts';
import { expectAsPrinted, workedExamples } from '../geometry/worked-examples.ts';
import { normalTableSchema } from './normal-table-schema.ts';

const reading = (
  ray: Ray,
  region: Region,
  proximal: Construction,
  distal: Construction,
  view: View | null = 'lateral',
) => ({ ray, region, proximal, distal, view });

const found = (asked: ReturnType<typeof reading>) => {
  const answer = publishedNormal(asked);
  if (!answer.ok) throw new Error(answer.error.message);
  return answer.value;
};

const examples = workedExamples(
  'published-normals',
  z.object({
    ray: z.enum(RAYS),
    region: z.enum(REGIONS),
    proximal: z.enum(CONSTRUCTIONS),
    distal: z.enum(CONSTRUCTIONS),
  }),
);

describe('published normals, as printed', () => {
  it.each(NORMAL_TABLES.map((table) => [table.id, table] as const))(
    '%s has the shape of a table',
    (_id, table) => {
      expect(normalTableSchema.parse(table)).toEqual(table);
    },
  );

  it.each(examples)('$name', (example) => {
    const { ray, region, proximal, distal } = example.given;
    const normal = found(reading(ray, region, proximal, distal));
    expectAsPrinted(example, {
      mean: normal.value,
      standardDeviation: normal.standardDeviation,
      halfWidth: coverageFactor(Number.POSITIVE_INFINITY) * normal.standardDeviation,
    });
    // A spread that is not printed is said to be assumed.
    if (example.kind === 'published')
      expect(normal.spread).toBe('standardDeviation' in example.expected ? 'published' : 'assumed');
  });

  it.each(workedExamples('published-bend', z.object({ ray: z.enum(RAYS) })))('$name', (example) => {
    const bend = normalBend(example.given.ray)!;
    expectAsPrinted(example, {
      mean: bend.meanPercent,
      standardDeviation: bend.standardDeviationPercent,
      least: bend.leastPercent,
      most: bend.mostPercent,
    });
  });
  it('have no place of the bend for the thumb, which nobody has measured', () =>
    expect(normalBend('thumb')).toBeNull());

  it('average 11.5° over the four dorsal cortices, as Bhandari et al. 2017 print for all 118 bones', () => {
    const fingers = ['index', 'middle', 'ring', 'small'] as const;
    const means = fingers.map((ray) => found(reading(ray, 'shaft', 'dorsal-cortex', 'dorsal-cortex')).value);
    expect(Math.abs(means.reduce((sum, mean) => sum + mean, 0) / 4 - 11.5)).toBeLessThanOrEqual(0.05);
  });

  it('say where the lines are not known to match, and whose word they are', () => {
    expect(found(reading('small', 'shaft', 'dorsal-cortex', 'dorsal-cortex'))).toMatchObject({
      mismatch: null,
      basis: expect.stringContaining('Bhandari'),
    });
    expect(found(reading('ring', 'neck', 'canal', 'head'))).toMatchObject({
      mismatch: null,
      basis: expect.stringContaining('assumed'),
    });
    // The abstract seen does not say which lines the bend was measured with; the conventional 15° neither.
    expect(found(reading('ring', 'shaft', 'canal', 'canal')).mismatch).toContain(
      'does not say between which lines',
    );
    expect(found(reading('index', 'neck', 'canal', 'head')).mismatch).toContain('conventional');
  });

  it('is zero in the PA view: shafts nearly straight (Rivlin 2015, abstract)', () => {
    expect(found(reading('ring', 'shaft', 'canal', 'canal', 'pa'))).toMatchObject({
      value: 0,
      spread: 'assumed',
    });
  });
});

describe('mismatch', () => {
  it('names the line that was drawn otherwise', () => {
    const { mismatch } = found(reading('ring', 'neck', 'dorsal-cortex', 'head'));
    expect(mismatch).toContain('proximal line follows the canal or the outer cortices');
    expect(mismatch).toContain('here it follows the dorsal cortex');
    expect(mismatch).not.toContain('distal');
  });

  it('names the view: a lateral norm serves an oblique film and says so', () => {
    const { value, mismatch } = found(reading('small', 'neck', 'canal', 'head', 'oblique'));
    expect(value).toBe(12);
    expect(mismatch).toContain('lateral');
    expect(mismatch).toContain('oblique');
  });

  it('never lets a lateral norm serve a PA film', () => {
    for (const ray of RAYS)
      for (const region of REGIONS) {
        const answer = publishedNormal(reading(ray, region, 'canal', 'head', 'pa'));
        if (answer.ok) expect(answer.value.value).toBe(0);
      }
  });
});

describe('nothing on file', () => {
  it('for the thumb, the head, and the base from the side', () => {
    for (const [ray, region] of [
      ['thumb', 'neck'],
      ['thumb', 'base'],
      ['small', 'head'],
      ['small', 'base'],
    ] as const) {
      const answer = publishedNormal(reading(ray, region, 'canal', 'canal'));
      expect(answer).toMatchObject({ ok: false, error: { kind: 'no-published-normal' } });
      if (!answer.ok) expect(answer.error.message).toMatch(/other hand, or take zero/);
    }
  });

  it('without a view', () => {
    expect(publishedNormal(reading('small', 'neck', 'canal', 'head', null))).toMatchObject({
      ok: false,
      error: { kind: 'view-not-said' },
    });
  });
});

it('answers every reading of the neck and shaft of a finger, always with a source', () => {
  for (const ray of ['index', 'middle', 'ring', 'small'] as const)
    for (const region of ['neck', 'shaft'] as const)
      for (const view of VIEWS)
        for (const proximal of CONSTRUCTIONS)
          for (const distal of CONSTRUCTIONS) {
            const normal = found(reading(ray, region, proximal, distal, view));
            expect(normal.citation.length).toBeGreaterThan(20);
            expect(normal.standardDeviation).toBeGreaterThan(0);
          }
});

it('loads every file of the folder, each named by its id', () => {
  const files = readdirSync('src/tolerance/normals').filter((name) => name.endsWith('.json'));
  expect(NORMAL_TABLES.map((table) => `${table.id}.json`).toSorted()).toEqual(files.toSorted());
});
