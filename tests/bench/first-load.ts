/**
 * How much a browser fetches before the form can be used, compressed. `npx tsx tests/bench/first-load.ts`. What is
 * fetched until the sample film is on the plate is counted in a browser, by `tests/journeys/first-load.test.ts`.
 */
import { execFileSync } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { pageWeight, totalBytes } from './page-weight.ts';

const OUT = resolve('node_modules/.cache/bench-first-load');
execFileSync('npx', ['vite', 'build', '--outDir', OUT, '--logLevel', 'error'], { stdio: 'inherit' });

const weights = await pageWeight((file) => readFile(join(OUT, file)));
const line = (bytes: number, words: string) =>
  console.info(`${(bytes / 1000).toFixed(1).padStart(7)} kB  ${words}`);
for (const { file, bytes } of weights) line(bytes, file);
line(totalBytes(weights), 'first load');
