import * as Comlink from 'comlink';
import type { Film, FilmError } from '../../film/film.ts';
import type { Result } from '../../geometry/result.ts';
import type { DecodeWorker } from '../../workers/decode.ts';

/** A film that takes longer than this to decode is given up: a hostile file can keep a codec busy for ever. */
const TIME_LIMIT_MS = 30_000;

export type DecodeError = FilmError | { readonly kind: 'took-too-long'; readonly seconds: number };

export interface FilmDecoder {
  /** Decodes a file's bytes; they are handed over and cannot be used afterwards. */
  decode(bytes: ArrayBuffer, frame?: number): Promise<Result<Film, DecodeError>>;
}

/** Decodes in a worker, one film at a time; a film that takes too long costs its worker, never the page. */
export class WorkerDecoder implements FilmDecoder {
  private worker: Worker | null = null;
  private remote: Comlink.Remote<DecodeWorker> | null = null;
  private queue: Promise<unknown> = Promise.resolve();

  decode(bytes: ArrayBuffer, frame = 0): Promise<Result<Film, DecodeError>> {
    const turn = this.queue.then(() => this.decodeNow(bytes, frame));
    this.queue = turn.catch(() => undefined);
    return turn;
  }

  private async decodeNow(bytes: ArrayBuffer, frame: number): Promise<Result<Film, DecodeError>> {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const late = new Promise<Result<Film, DecodeError>>((resolve) => {
      timer = setTimeout(() => {
        this.stop();
        resolve({ ok: false, error: { kind: 'took-too-long', seconds: TIME_LIMIT_MS / 1000 } });
      }, TIME_LIMIT_MS);
    });
    try {
      return await Promise.race([this.start().decode(Comlink.transfer(bytes, [bytes]), frame), late]);
    } finally {
      clearTimeout(timer);
    }
  }

  private start(): Comlink.Remote<DecodeWorker> {
    if (this.remote !== null) return this.remote;
    this.worker = new Worker(new URL('../../workers/decode.ts', import.meta.url), { type: 'module' });
    this.remote = Comlink.wrap<DecodeWorker>(this.worker);
    return this.remote;
  }

  private stop(): void {
    this.worker?.terminate();
    this.worker = null;
    this.remote = null;
  }
}
