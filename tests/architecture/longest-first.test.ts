import { existsSync } from 'node:fs';
import { expect, it } from 'vitest';
import { LONGEST } from '../longest-first.ts';

it('names files that are there', () => {
  expect(LONGEST.filter((path) => !existsSync(path))).toEqual([]);
});
