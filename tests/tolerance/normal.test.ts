import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
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
import { NORMAL_TABLES } from '../../src/tolerance/normal-tables.ts';
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

describe('published normals, as printed', () => {
  it.each(NORMAL_TABLES.map((table) => [table.id, table] as const))(
    '%s has the shape of a table',
    (_id, table) => {
      expect(normalTableSchema.parse(table)).toEqual(table);
    },
  );

  it.each([
    // Bhandari et al., Plast Aesthet Res 2017;4:174-177, Table 1: dorsal cortex angle, mean (SD).
    ['index', 13, 4.73],
    ['middle', 10, 5.28],
    ['ring', 11, 4.45],
    ['small', 12, 5.11],
  ] as const)('dorsal cortex of the %s finger: %f° (SD %f°)', (ray, mean, spread) => {
    const normal = found(reading(ray, 'shaft', 'dorsal-cortex', 'dorsal-cortex'));
    expect(normal).toMatchObject({
      value: mean,
      standardDeviation: spread,
      spread: 'published',
      mismatch: null,
    });
    expect(normal.basis).toContain('Bhandari');
  });

  it.each([
    // Rivlin et al., Hand 2015;10:756-761, abstract: capital axis angle; its SDs were not seen.
    ['ring', 14],
    ['small', 12],
  ] as const)('capital axis of the %s finger: %f°, spread assumed', (ray, mean) => {
    for (const proximal of ['canal', 'cortex-pair'] as const) {
      const normal = found(reading(ray, 'neck', proximal, 'head'));
      expect(normal).toMatchObject({ value: mean, standardDeviation: 5, spread: 'assumed', mismatch: null });
      expect(normal.basis).toContain('assumed');
    }
  });

  it.each([
    // The same abstract: shaft-bending angle. Its lines were not seen, so it never quite matches.
    ['ring', 12],
    ['small', 10],
  ] as const)('bend of the shaft of the %s finger: %f°', (ray, mean) => {
    const normal = found(reading(ray, 'shaft', 'canal', 'canal'));
    expect(normal.value).toBe(mean);
    expect(normal.mismatch).toContain('does not say between which lines');
  });

  it.each(['index', 'middle'] as const)('conventional 15° for the neck of the %s finger', (ray) => {
    // WikEM neck page, 2016: measured minus 15.
    const normal = found(reading(ray, 'neck', 'canal', 'head'));
    expect(normal).toMatchObject({ value: 15, spread: 'assumed' });
    expect(normal.mismatch).toContain('conventional');
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
