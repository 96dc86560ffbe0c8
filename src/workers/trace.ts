import * as Comlink from 'comlink';
import type { Result } from '../geometry/result.ts';
import type { TraceRequest } from '../trace/request.ts';
import { trace } from '../trace/trace.ts';
import type { TracedBone, TraceFailure } from '../trace/traced.ts';

/** What the page may ask of this worker, through comlink. */
export interface TraceWorker {
  /**
   * Finds the two axes round four taps.
   *
   * Takes a few hundredths of a second and cannot be interrupted; whoever no longer wants the answer ends the
   * worker, or lets it finish and drops what comes back.
   *
   * @param request - Pass it with `Comlink.transfer(request, [request.picture.values.buffer])`: the piece of
   *   film is handed over, not copied. `pictureRound` cuts it out of a film.
   */
  trace(request: TraceRequest): Promise<Result<TracedBone, TraceFailure>>;
}

const worker: TraceWorker = {
  async trace(request) {
    return trace(request);
  },
};

Comlink.expose(worker);
