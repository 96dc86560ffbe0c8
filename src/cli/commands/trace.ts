import { readFile } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { Film, FilmError } from '../../film/film.ts';
import { sentence } from '../../film/film-error.ts';
import { readFilm } from '../../film/read-film.ts';
import type { Result } from '../../geometry/result.ts';
import { pictureRound } from '../../trace/picture.ts';
import { doubtSentence, traceFailureSentence } from '../../trace/sentences.ts';
import { trace } from '../../trace/trace.ts';
import type { TracedBone, TraceFailure } from '../../trace/traced.ts';
import { type Command, complain, EXIT } from '../command.ts';
import { textOf } from '../files.ts';
import { nodeFilmTools } from '../node-film-tools.ts';
import { parseTraceRow, type RowError, rowErrorSentence, type TraceRow } from '../trace-row.ts';

const USAGE = 'trace --manifest FILE.jsonl';

type Refusal = FilmError | RowError | TraceFailure | { readonly kind: 'unreadable' };
type Line = Readonly<Record<string, unknown>> & { readonly ok: boolean };

/** Axes traced from taps on many films, one line of JSON for each row of a manifest. */
export const traceFilms: Command = {
  usage: USAGE,
  about:
    'Both axes of a broken metacarpal from four taps a row: signed angle, 95 % interval, whether it is flagged and why, both axes and the milliseconds, one line of JSON a row.',
  async run(args) {
    const manifest = manifestOf(args);
    if (manifest === null) {
      complain('usage', `Give one manifest: raybend ${USAGE}`);
      return EXIT.usage;
    }
    const text = await textOf(manifest);
    if (!text.ok) {
      complain(text.error.kind, text.error.message);
      return EXIT.unreadable;
    }
    const films = filmsBeside(manifest);
    let refused = false;
    for (const [index, line] of text.value.split('\n').entries()) {
      if (line.trim() === '') continue;
      const said = await lineFor(line, films);
      refused ||= !said.ok;
      console.log(JSON.stringify({ row: index + 1, ...said }));
    }
    return refused ? EXIT.refused : EXIT.done;
  },
};

function manifestOf(args: readonly string[]): string | null {
  try {
    const { values } = parseArgs({ args: [...args], options: { manifest: { type: 'string' } } });
    return values.manifest ?? null;
  } catch {
    return null;
  }
}

type ReadFilm = (path: string) => Promise<Result<Film, FilmError> | { readonly unreadable: string }>;

/** Films by their path beside the manifest. The last one is kept: rows of one film mostly follow each other. */
function filmsBeside(manifest: string): ReadFilm {
  let last: { readonly path: string; readonly film: Awaited<ReturnType<ReadFilm>> } | null = null;
  return async (path) => {
    if (last?.path === path) return last.film;
    let film: Awaited<ReturnType<ReadFilm>>;
    try {
      const bytes = await readFile(resolve(dirname(manifest), path));
      film = await readFilm(new Uint8Array(bytes), nodeFilmTools);
    } catch (problem) {
      film = { unreadable: problem instanceof Error ? problem.message : String(problem) };
    }
    last = { path, film };
    return film;
  };
}

const refusal = (film: string | null, error: Refusal, said: string): Line => ({
  film,
  ok: false,
  error,
  sentence: said,
});

async function lineFor(text: string, read: ReadFilm): Promise<Line> {
  const row = parseTraceRow(text);
  if (!row.ok) return refusal(null, row.error, rowErrorSentence(row.error));
  const { film: path } = row.value;
  const film = await read(path);
  if ('unreadable' in film) {
    return refusal(
      path,
      { kind: 'unreadable' },
      `“${path}” could not be read (${film.unreadable}). Paths are taken from the manifest's folder.`,
    );
  }
  if (!film.ok) return refusal(path, film.error, sentence(film.error, path));
  warmUp(row.value, film.value);
  const start = performance.now();
  const traced = traceRow(row.value, film.value);
  const milliseconds = Number((performance.now() - start).toFixed(2));
  return traced.ok
    ? { film: path, ok: true, ...reading(traced.value), milliseconds }
    : { ...refusal(path, traced.error, traceFailureSentence(traced.error)), flagged: true, milliseconds };
}

/** Traces in which the engine compiles the program. */
const WARMING_TRACES = 5;
let isWarm = false;

/** The first traces of a process take many times as long: they are made beforehand, so that the time told is a trace's. */
function warmUp(row: TraceRow, film: Film): void {
  if (isWarm) return;
  for (let round = 0; round < WARMING_TRACES; round += 1) traceRow(row, film);
  isWarm = true;
}

function traceRow(row: TraceRow, film: Film): Result<TracedBone, TraceFailure> {
  const { base, proximalEnd, distalEnd, head: headEnd } = row.taps;
  const scale = { unit: 'mm', perColumn: row.pixelMm, perRow: row.pixelMm } as const;
  const picture = pictureRound(
    row.bone === 'bright' ? film : turnedOver(film),
    [base, proximalEnd, distalEnd, headEnd],
    scale,
  );
  if (picture === null) return { ok: false, error: { kind: 'tap-off-film', tap: 'base' } };
  return trace({
    picture,
    scale,
    taps: { base, proximalEnd, distalEnd, headEnd },
    tapErrorMm: row.tapErrorMm,
    site: row.region,
    view: row.view,
    brackets: [],
    corrections: [],
  });
}

/** A film whose bone is dark although it does not say so, such as a screenshot of a negative. */
const turnedOver = (film: Film): Film => ({
  ...film,
  grey: {
    ...film.grey,
    photometric: film.grey.photometric === 'MONOCHROME1' ? 'MONOCHROME2' : 'MONOCHROME1',
  },
});

function reading({ turnDegrees, interval, sure, doubts, second, proximal, distal }: TracedBone) {
  return {
    angleDegrees: turnDegrees,
    interval,
    flagged: !sure,
    reasons: doubts.map((doubt) => ({ ...doubt, sentence: doubtSentence(doubt) })),
    proximalAxis: proximal.axis,
    distalAxis: distal.axis,
    second: second === null ? null : { angleDegrees: second.turnDegrees, share: second.share },
  };
}
