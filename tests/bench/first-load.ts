/**
 * How much a browser fetches before the app can be used, compressed: what the built page itself names, and the fonts
 * and the decoder beside it. `npx tsx tests/bench/first-load.ts`
 */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';

const OUT = resolve('node_modules/.cache/bench-first-load');
execFileSync('npx', ['vite', 'build', '--outDir', OUT, '--logLevel', 'error'], { stdio: 'inherit' });

const page = readFileSync(join(OUT, 'index.html'));
const named = [...page.toString().matchAll(/(?:src|href)="\.\/(assets\/[^"]+)"/g)].map(([, file]) => file!);
const compressed = (file: string): number => gzipSync(readFileSync(join(OUT, file))).length;
const inKilobytes = (bytes: number): string => `${(bytes / 1000).toFixed(1)} kB`;

let total = gzipSync(page).length;
for (const file of named.toSorted((one, other) => compressed(other) - compressed(one))) {
  console.info(`${inKilobytes(compressed(file)).padStart(10)}  ${file}`);
  total += compressed(file);
}
console.info(`${inKilobytes(total).padStart(10)}  first load, the page itself included`);

const all = readdirSync(join(OUT, 'assets')).filter((file) => !named.includes(`assets/${file}`));
const rest = all.reduce((sum, file) => sum + readFileSync(join(OUT, 'assets', file)).length, 0);
console.info(
  `${inKilobytes(rest).padStart(10)}  ${all.length} files more, not compressed, as they are needed`,
);
