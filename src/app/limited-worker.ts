import * as Comlink from 'comlink';
import { failure, type Result, reasonOf, success } from '../geometry/result.ts';

/** Why a worker gave no answer. It was ended with that; the next question starts another. */
export type WorkerFailure =
  | { readonly kind: 'took-too-long'; readonly seconds: number }
  /** It died, or what it was asked threw. */
  | { readonly kind: 'worker-stopped'; readonly detail: string }
  /** Nobody wants the answer any more. */
  | { readonly kind: 'given-up' };

/** A worker that is asked one thing at a time and given only so long: nothing it does can keep the page waiting. */
export class LimitedWorker<Api> {
  private running: { readonly worker: Worker; readonly remote: Comlink.Remote<Api> } | null = null;
  private queue: Promise<unknown> = Promise.resolve();
  private idle: ReturnType<typeof setTimeout> | undefined;

  /**
   * @param start - Starts the worker, when it is first needed and after it was ended.
   * @param limitMs - For one question, from the moment its turn comes.
   * @param idleMs - After so long without a question it is ended; null: it stays.
   */
  constructor(
    private readonly start: () => Worker,
    private readonly limitMs: number,
    private readonly idleMs: number | null = null,
  ) {}

  /**
   * Asks when all that was asked before is answered. Never rejects.
   *
   * @param stop - Ends the worker; the answer is then `given-up`.
   */
  ask<Value>(
    question: (remote: Comlink.Remote<Api>) => Promise<Value>,
    stop?: AbortSignal,
  ): Promise<Result<Value, WorkerFailure>> {
    const turn = this.queue.then(() => this.within(question, stop));
    this.queue = turn;
    return turn;
  }

  private async within<Value>(
    question: (remote: Comlink.Remote<Api>) => Promise<Value>,
    stop: AbortSignal | undefined,
  ): Promise<Result<Value, WorkerFailure>> {
    if (stop?.aborted) return failure({ kind: 'given-up' });
    clearTimeout(this.idle);
    const answered = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    try {
      const { worker, remote } = this.started();
      const over = new Promise<Result<Value, WorkerFailure>>((resolve) => {
        const end = (error: WorkerFailure) => resolve(failure(error));
        const { signal } = answered;
        timer = setTimeout(() => end({ kind: 'took-too-long', seconds: this.limitMs / 1000 }), this.limitMs);
        worker.addEventListener(
          'error',
          ({ message }) => end({ kind: 'worker-stopped', detail: message || 'it ended by itself' }),
          { signal },
        );
        stop?.addEventListener('abort', () => end({ kind: 'given-up' }), { signal });
      });
      const answer = await Promise.race([question(remote).then((value) => success(value)), over]);
      if (!answer.ok) this.stop();
      return answer;
    } catch (thrown) {
      this.stop();
      const detail = reasonOf(thrown);
      return failure({ kind: 'worker-stopped', detail });
    } finally {
      clearTimeout(timer);
      answered.abort();
      if (this.idleMs !== null) this.idle = setTimeout(() => this.stop(), this.idleMs);
    }
  }

  private started() {
    if (this.running === null) {
      const worker = this.start();
      this.running = { worker, remote: Comlink.wrap<Api>(worker) };
    }
    return this.running;
  }

  private stop(): void {
    this.running?.worker.terminate();
    this.running = null;
  }
}
