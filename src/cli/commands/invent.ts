import { basename, extname } from 'node:path';
import { parseArgs } from 'node:util';
import { inventFilm } from '../../phantom/invent.ts';
import { seededRandom } from '../../phantom/random.ts';
import { parseSpec, specErrorSentence } from '../../phantom/spec.ts';
import { type Command, complain, EXIT } from '../command.ts';
import { textOf } from '../files.ts';
import { writeInvented } from '../invented-files.ts';

const USAGE = 'invent SPEC.json [--seed NUMBER] [--out FOLDER]';

/** A number with more digits may be read as its neighbour, and be the seed of another film than is said. */
const SEED = /^-?\d{1,15}$/;

/** Makes an invented film from a description: a DICOM file, a PNG and its truth. */
export const invent: Command = {
  usage: USAGE,
  about: 'An invented film with its truth, from a description: DICOM, PNG and JSON.',
  async run(args) {
    const call = callOf(args);
    if (call === null) {
      complain('usage', `Give one description: raybend ${USAGE}`);
      return EXIT.usage;
    }
    const { path, out } = call;
    if (!SEED.test(call.seed)) {
      complain(
        'usage',
        `The seed “${call.seed}” is no whole number of at most 15 digits. Give one, as in --seed 7, or leave --seed out for the seed 1.`,
      );
      return EXIT.usage;
    }
    const seed = Number(call.seed);
    const text = await textOf(path);
    if (!text.ok) {
      complain(text.error.kind, text.error.message);
      return EXIT.unreadable;
    }
    let request: unknown;
    try {
      request = JSON.parse(text.value);
    } catch (problem) {
      const why = problem instanceof Error ? problem.message : String(problem);
      complain('not-json', `${path} cannot be read as JSON: ${why}. Check the text and try again.`);
      return EXIT.refused;
    }
    const spec = parseSpec(request);
    if (!spec.ok) {
      complain(spec.error.kind, `${path}: ${specErrorSentence(spec.error)}`);
      return EXIT.refused;
    }
    const name = basename(path, extname(path));
    const film = inventFilm(spec.value, seededRandom(seed));
    const files = await writeInvented(out, film, { name, study: `SEED-${seed}`, instanceNumber: 1 });
    console.log(files.join('\n'));
    return EXIT.done;
  },
};

/** What was asked for; null where the call is none that is known. */
function callOf(args: readonly string[]): { path: string; seed: string; out: string } | null {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { seed: { type: 'string', default: '1' }, out: { type: 'string', default: '.' } },
    });
    const [path] = positionals;
    return path === undefined || positionals.length > 1 ? null : { path, seed: values.seed, out: values.out };
  } catch {
    return null;
  }
}
