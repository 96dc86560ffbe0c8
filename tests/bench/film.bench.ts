/**
 * How long a film of 12 megapixels takes from the bytes of its file to a film that can be shown (header, stored values,
 * range and pyramid), in each compression, against dcmtk or gdcm from file to file of the same stored values. They also
 * write what they decoded; they build no pyramid.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { nodeFilmTools } from '../../src/cli/node-film-tools.ts';
import { readFilm } from '../../src/film/read-film.ts';
import { largeFilm, pixels } from './harness/large-film.ts';
import { race, SpentElsewhere } from './harness/lines.ts';

const folder = mkdtempSync(join(tmpdir(), 'raybend-bench-'));
const at = (name: string) => join(folder, name);

function run(command: string, ...options: string[]): void {
  const ended = spawnSync(command, options, { stdio: 'ignore' });
  if (ended.status !== 0) throw new Error(`${command} did not run: apt-get install dcmtk libgdcm-tools`);
}

const native = largeFilm();
writeFileSync(at('native.dcm'), native);

/** A command's user and system time, as the shell tells it in seconds. */
function timeOf(...command: string[]): SpentElsewhere {
  const script = 'TIMEFORMAT="%3U %3S"; time "$@" >/dev/null 2>/dev/null';
  const ended = spawnSync('bash', ['-c', script, 'bench', ...command], { encoding: 'utf8' });
  if (ended.status !== 0) throw new Error(`${command[0]} did not run: apt-get install dcmtk libgdcm-tools`);
  const [user, system] = ended.stderr.trim().split(' ').map(Number);
  return new SpentElsewhere(1000 * (user! + system!));
}

interface Compression {
  readonly name: string;
  readonly encode: readonly string[];
  readonly decode: readonly string[];
  readonly goal?: number;
}

const COMPRESSIONS: readonly Compression[] = [
  { name: 'deflated', encode: ['dcmconv', '+td'], decode: ['dcmconv', '+te'] },
  { name: 'RLE', encode: ['dcmcrle'], decode: ['dcmdrle'] },
  { name: 'JPEG Lossless', encode: ['dcmcjpeg', '+e1'], decode: ['dcmdjpeg'], goal: 1.5 },
  { name: 'JPEG-LS', encode: ['dcmcjpls'], decode: ['dcmdjpls'] },
  { name: 'JPEG 2000', encode: ['gdcmconv', '--j2k'], decode: ['gdcmconv', '--raw'], goal: 1.5 },
  { name: 'JPEG Extended, 12 bits', encode: ['dcmcjpeg', '+ee'], decode: ['dcmdjpeg'] },
];

async function open(file: Uint8Array): Promise<void> {
  const read = await readFilm(file, nodeFilmTools);
  if (!read.ok || read.value.levels[0]!.pixels.length !== pixels.length) throw new Error('not opened whole');
}

/** How soon a coarse picture of the film is there, and what it costs the whole. */
async function raceFirstPicture(bytes: Uint8Array, whole: () => Promise<void>): Promise<void> {
  const untilFirst = async () => {
    const before = process.cpuUsage();
    let spent = Number.NaN;
    await readFilm(bytes, nodeFilmTools, 0, () => {
      const { user, system } = process.cpuUsage(before);
      spent = (user + system) / 1000;
    });
    if (Number.isNaN(spent)) throw new Error('there was no first picture');
    return new SpentElsewhere(spent);
  };
  await race({
    against: 'the same film opened whole at once',
    baseline: whole,
    runs: {
      'film of 12 megapixels in JPEG 2000: its first picture': untilFirst,
      'film of 12 megapixels in JPEG 2000: whole, after its first picture': {
        pass: () => readFilm(bytes, nodeFilmTools, 0, () => undefined),
        goal: 1.1,
      },
    },
    rounds: 5,
  });
}

await race({
  against: 'plain copy of its stored values',
  baseline: () => pixels.slice(),
  runs: { 'film of 12 megapixels opened: uncompressed': () => open(native) },
});
for (const { name, encode, decode, goal } of COMPRESSIONS) {
  const file = at(`${name.replaceAll(/\W/g, '-')}.dcm`);
  run(encode[0]!, ...encode.slice(1), at('native.dcm'), file);
  const bytes = readFileSync(file);
  const pass = () => open(bytes);
  if (name === 'JPEG 2000') await raceFirstPicture(bytes, pass);
  await race({
    against: decode.join(' '),
    baseline: () => timeOf(...decode, file, at('decoded.dcm')),
    runs: { [`film of 12 megapixels opened: ${name}`]: goal === undefined ? pass : { pass, goal } },
    rounds: 5,
  });
}
rmSync(folder, { recursive: true });
