/**
 * How much a browser fetches before the form can be used, compressed. What is fetched until the sample film is on the
 * plate is counted in a browser, by `tests/journeys/first-load.test.ts`.
 */
import { execFileSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { tell } from './harness/lines.ts';
import { pageWeight, totalBytes } from './harness/page-weight.ts';

const OUT = resolve('node_modules/.cache/bench-first-load');
execFileSync('npx', ['vite', 'build', '--outDir', OUT, '--logLevel', 'error'], { stdio: 'inherit' });

const weights = await pageWeight((file) => readFile(join(OUT, file)));
tell({
  name: 'first load, compressed (kB)',
  value: totalBytes(weights) / 1000,
  baseline: 250,
  against: 'the aim',
  goal: 1,
});
