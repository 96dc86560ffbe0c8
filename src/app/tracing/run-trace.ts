import * as Comlink from 'comlink';
import type { FilmRecord, InjuryRecord, SettingsRecord } from '../../case/document.ts';
import type { Film } from '../../film/film.ts';
import { NOMINAL_PLACING_ERROR_MM } from '../../geometry/placing.ts';
import { planeScale } from '../../geometry/spacing.ts';
import { pictureRound } from '../../trace/picture.ts';
import type { TraceRequest, TraceSite } from '../../trace/request.ts';
import { doubtSentence, traceFailureSentence } from '../../trace/sentences.ts';
import type { TraceWorker } from '../../workers/trace.ts';
import { LimitedWorker, type WorkerFailure } from '../limited-worker.ts';
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

const tracer = new LimitedWorker<TraceWorker>(
  () => new Worker(new URL('../../workers/trace.ts', import.meta.url), { type: 'module' }),
  TIME_LIMIT_MS,
);

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
  const answered = await tracer.ask(
    async (remote) => remote.trace(Comlink.transfer(request, [request.picture.values.buffer])),
    stop,
  );
  if (!answered.ok) return failed(brokenOff(answered.error));
  const answer = answered.value;
  if (!answer.ok) {
    // What the taps alone had found is gone; whoever dragged or tapped too far wants it again.
    const wayBack = task.adjustments.length > 0 ? ' “Last point back” takes your last change away.' : '';
    return failed(traceFailureSentence(answer.error) + wayBack);
  }
  const found: TracedFinding = { bone: answer.value, doubts: answer.value.doubts.map(doubtSentence) };
  return { found, failed: null };
}

function brokenOff(error: WorkerFailure): string {
  switch (error.kind) {
    case 'given-up':
      return 'Tracing was stopped.';
    case 'took-too-long':
      return `Tracing took longer than ${error.seconds} seconds. Place the axes by hand.`;
    case 'worker-stopped':
      return `Tracing broke off (${error.detail}). Trace again, or place the axes by hand.`;
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
