import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { labelsInSource } from './labels.ts';

const page = readFileSync('docs/vocabulary.md', 'utf8');
/** Entries of the page: what stands between bars and middle dots. */
const entries = new Set(page.split(/[|·\n]/).map((entry) => entry.trim()));

describe('docs/vocabulary.md', () => {
  it('has every label of the app; add a new one with where its word comes from', () => {
    const labels = labelsInSource();
    // The reader of the source is not blind: these stand in three different kinds of places.
    expect(labels).toEqual(expect.arrayContaining(['Negative', 'Axes', 'Degrees of freedom']));
    expect(labels.filter((label) => !entries.has(label))).toEqual([]);
  });

  it('has every name that is kept in the browser or stands in a file', () => {
    const names = new Set<string>();
    for (const path of readdirSync('src', { recursive: true, encoding: 'utf8' })) {
      if (!/\.tsx?$/.test(path)) continue;
      const text = readFileSync(join('src', path), 'utf8');
      for (const [, name] of text.matchAll(/'(raybend[- ][a-z][a-z -]*(?:\.[a-z]+)?)'/g)) names.add(name!);
    }
    expect(names).toContain('raybend-case');
    expect([...names].filter((name) => !page.includes(name))).toEqual([]);
  });
});
