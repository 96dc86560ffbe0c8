import * as Comlink from 'comlink';
import type { FilmRecord, InjuryRecord, SettingsRecord } from '../../case/document.ts';
import type { Film } from '../../film/film.ts';
import { NOMINAL_PLACING_ERROR_MM } from '../../geometry/placing.ts';
import { planeScale } from '../../geometry/spacing.ts';
import { pictureRound } from '../../trace/picture.ts';
import type { TraceRequest, TraceSite } from '../../trace/request.ts';
import { doubtSentence, traceFailureSentence } from '../../trace/sentences.ts';
import type { TraceWorker } from '../../workers/trace.ts';
import type { TracedFinding, TraceTask } from './trace-task.ts';

/** A trace takes a few hundredths of a second; one that takes this long will not end. */
const TIME_LIMIT_MS = 20_000;
/** The middle of a bone's end is judged, not seen: a tap is taken to be this many times less exact than a point of a mark. */
const TAP_TO_PLACING_ERROR = 2;

/** What a trace goes by besides the taps. */
export interface TraceCircumstances {
  readonly film: Film;
  readonly record: FilmRecord;
  readonly site: TraceSite;
  readonly placingErrorMm: SettingsRecord['placingErrorMm'];
}

/** The sites that can be traced; null: the tracer was not set on breaks of this part. */
export const traceSite = (region: InjuryRecord['region']): TraceSite | null =>
  region === 'shaft' || region === 'neck' ? region : null;

export type TraceAnswer = Pick<TraceTask, 'found' | 'failed'>;

let worker: { readonly running: Worker; readonly remote: Comlink.Remote<TraceWorker> } | null = null;

function startedWorker(): Comlink.Remote<TraceWorker> {
  if (worker === null) {
    const running = new Worker(new URL('../../workers/trace.ts', import.meta.url), { type: 'module' });
    worker = { running, remote: Comlink.wrap<TraceWorker>(running) };
  }
  return worker.remote;
}

function endWorker(): void {
  worker?.running.terminate();
  worker = null;
}

/**
 * Has a worker find the axes. Never rejects.
 *
 * @param stop - Ends the worker; the answer is then of no use to anybody.
 */
export async function runTrace(
  task: TraceTask,
  circumstances: TraceCircumstances,
  stop: AbortSignal,
): Promise<TraceAnswer> {
  const request = requestOf(task, circumstances);
  if (request === null) return failed('No tap lies on the film. Take the last tap back and tap on the bone.');
  let timer: ReturnType<typeof setTimeout> | undefined;
  const gone = new Promise<string>((resolve) => {
    stop.addEventListener('abort', () => resolve('Tracing was stopped.'));
    timer = setTimeout(
      () => resolve(`Tracing took longer than ${TIME_LIMIT_MS / 1000} seconds. Place the axes by hand.`),
      TIME_LIMIT_MS,
    );
  });
  try {
    const traced = startedWorker().trace(Comlink.transfer(request, [request.picture.values.buffer]));
    const answer = await Promise.race([traced, gone]);
    if (typeof answer === 'string') {
      endWorker();
      return failed(answer);
    }
    if (!answer.ok) {
      // What the taps alone had found is gone; whoever dragged or tapped too far wants it again.
      const wayBack = task.adjustments.length > 0 ? ' “Last point back” takes your last change away.' : '';
      return failed(traceFailureSentence(answer.error) + wayBack);
    }
    const found: TracedFinding = { bone: answer.value, doubts: answer.value.doubts.map(doubtSentence) };
    return { found, failed: null };
  } catch (thrown) {
    endWorker();
    const detail = thrown instanceof Error ? thrown.message : String(thrown);
    return failed(`Tracing broke off (${detail}). Trace again, or place the axes by hand.`);
  } finally {
    clearTimeout(timer);
  }
}

const failed = (sentence: string): TraceAnswer => ({ found: null, failed: sentence });

function requestOf(
  { taps, adjustments }: TraceTask,
  { film, record, site, placingErrorMm }: TraceCircumstances,
): TraceRequest | null {
  const [base, proximalEnd, distalEnd, headEnd] = taps;
  const scale = planeScale(record.spacing);
  const picture = pictureRound(film, taps, scale);
  if (picture === null || !base || !proximalEnd || !distalEnd || !headEnd) return null;
  return {
    picture,
    scale,
    taps: { base, proximalEnd, distalEnd, headEnd },
    tapErrorMm: TAP_TO_PLACING_ERROR * (placingErrorMm ?? NOMINAL_PLACING_ERROR_MM),
    site,
    view: record.view,
    brackets: adjustments.flatMap((one) => (one.kind === 'bracket' ? [one.bracket] : [])),
    corrections: adjustments.flatMap((one) => (one.kind === 'correction' ? [one.correction] : [])),
  };
}
