import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';

/**
 * `npm run bench`: every `*.bench.ts` of this folder, one after another and each in a process of its own; `npm run bench
 * -- trace film` those whose names begin so. Prints the lines of JSON that they print (`harness/lines.ts`).
 */
const wanted = process.argv.slice(2);
const files = readdirSync(import.meta.dirname)
  .filter((file) => file.endsWith('.bench.ts'))
  .filter((file) => wanted.length === 0 || wanted.some((name) => file.startsWith(name)))
  .toSorted();
if (files.length === 0) throw new Error(`There is no bench whose name begins with ${wanted.join(' or ')}.`);
for (const file of files) {
  const run = spawnSync('npx', ['tsx', join(import.meta.dirname, file)], { stdio: 'inherit' });
  if (run.status !== 0) {
    console.error(`${file} did not come to its end.`);
    process.exitCode = 1;
  }
}
