import { readFile } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import { parseArgs } from 'node:util';
import { inventFilm } from '../../phantom/invent.ts';
import { seededRandom } from '../../phantom/random.ts';
import { parseSpec, specErrorSentence } from '../../phantom/spec.ts';
import type { Command } from '../command.ts';
import { writeInvented } from '../invented-files.ts';

const USAGE = 'invent SPEC.json [--seed NUMBER] [--out FOLDER]';

/** Makes an invented film from a description: a DICOM file, a PNG and its truth. */
export const invent: Command = {
  usage: USAGE,
  about: 'An invented film with its truth, from a description: DICOM, PNG and JSON.',
  async run(args) {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { seed: { type: 'string', default: '1' }, out: { type: 'string', default: '.' } },
    });
    const [path] = positionals;
    const seed = Number(values.seed);
    if (path === undefined || positionals.length > 1 || !Number.isInteger(seed)) {
      console.error(`Give one description and a whole number as seed: raybend ${USAGE}`);
      return 2;
    }
    let request: unknown;
    try {
      request = JSON.parse(await readFile(path, 'utf8'));
    } catch (problem) {
      const why = problem instanceof Error ? problem.message : String(problem);
      console.error(`${path} cannot be read as JSON: ${why}. Check the path and the text, and try again.`);
      return 1;
    }
    const spec = parseSpec(request);
    if (!spec.ok) {
      console.error(`${path}: ${specErrorSentence(spec.error)}`);
      return 1;
    }
    const name = basename(path, extname(path));
    const film = inventFilm(spec.value, seededRandom(seed));
    const files = await writeInvented(values.out, film, {
      name,
      study: `SEED-${seed}`,
      instanceNumber: 1,
    });
    console.log(files.join('\n'));
    return 0;
  },
};
