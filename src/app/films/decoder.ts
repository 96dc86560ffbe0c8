import * as Comlink from 'comlink';
import type { FilmPlace } from '../../case/document.ts';
import type { Contents, NamedFile } from '../../film/container.ts';
import type { Film, FilmError, FirstPicture } from '../../film/film.ts';
import { sentence } from '../../film/film-error.ts';
import { failure, type Result } from '../../geometry/result.ts';
import type { DecodeWorker } from '../../workers/decode.ts';

/** A film that takes longer than this to decode is given up: a hostile file can keep a codec busy for ever. */
const TIME_LIMIT_MS = 30_000;

/** An idle worker is ended: what a codec has taken of memory it never gives back otherwise. */
const IDLE_MS = 4000;

export type DecodeError =
  | FilmError
  | { readonly kind: 'took-too-long'; readonly seconds: number }
  /** The decoder gave up in a way it has no word for: out of memory, or a picture that is not in the file. */
  | { readonly kind: 'decoder-stopped'; readonly detail: string };

/** One sentence: which file, what happened, what to do next. */
export function decodeSentence(error: DecodeError, fileName: string): string {
  switch (error.kind) {
    case 'took-too-long':
      return `“${fileName}” took longer than ${error.seconds} seconds to read and was given up. Export it uncompressed and open it again.`;
    case 'decoder-stopped':
      return `“${fileName}” could not be read to its end (${error.detail}). Export it uncompressed and open it again.`;
    default:
      return sentence(error, fileName);
  }
}

export type OnFirst = (picture: FirstPicture) => void;

export interface FilmDecoder {
  /**
   * Decodes a file's bytes; they are handed over and cannot be used afterwards.
   *
   * @param onFirst - Given a coarse picture meanwhile, where there is one; never once the answer is there.
   */
  decode(bytes: ArrayBuffer, place?: FilmPlace, onFirst?: OnFirst): Promise<Result<Film, DecodeError>>;
  /** Sorts a file, or what is in an archive, into films and the rest. The bytes are handed over. */
  lookInside(file: NamedFile): Promise<Result<Contents, DecodeError>>;
  /** Equal for two files of one patient while this page is open; null where the file names none. Nothing is kept. */
  patientKey(bytes: ArrayBuffer): Promise<Result<string | null, DecodeError>>;
}

/** Reads in a worker, one file at a time; a file that takes too long costs its worker, never the page. */
export class WorkerDecoder implements FilmDecoder {
  private worker: Worker | null = null;
  private remote: Comlink.Remote<DecodeWorker> | null = null;
  private queue: Promise<unknown> = Promise.resolve();
  private idle: ReturnType<typeof setTimeout> | undefined;
  /** Made anew with each page, so that keys mean nothing elsewhere or later. */
  private readonly secret = crypto.getRandomValues(new Uint8Array(32));

  async decode(bytes: ArrayBuffer, place?: FilmPlace, onFirst?: OnFirst): Promise<Result<Film, DecodeError>> {
    let answered = false;
    const first = onFirst && Comlink.proxy((picture: FirstPicture) => void (answered || onFirst(picture)));
    const answer = await this.inTurn((remote) =>
      remote.decode(Comlink.transfer(bytes, [bytes]), place?.frame ?? 0, place?.part ?? null, first ?? null),
    );
    answered = true;
    return answer;
  }

  lookInside(file: NamedFile): Promise<Result<Contents, DecodeError>> {
    const { buffer } = file.bytes;
    return this.inTurn(async (remote) => ({
      ok: true,
      value: await remote.lookInside(Comlink.transfer([file], [buffer as ArrayBuffer])),
    }));
  }

  patientKey(bytes: ArrayBuffer): Promise<Result<string | null, DecodeError>> {
    return this.inTurn(async (remote) => ({
      ok: true,
      value: await remote.patientKey(Comlink.transfer(bytes, [bytes]), this.secret),
    }));
  }

  private inTurn<Value>(
    ask: (remote: Comlink.Remote<DecodeWorker>) => Promise<Result<Value, FilmError>>,
  ): Promise<Result<Value, DecodeError>> {
    const turn = this.queue.then(() => this.within(ask));
    this.queue = turn;
    return turn;
  }

  /** Never rejects. */
  private async within<Value>(
    ask: (remote: Comlink.Remote<DecodeWorker>) => Promise<Result<Value, FilmError>>,
  ): Promise<Result<Value, DecodeError>> {
    clearTimeout(this.idle);
    let timer: ReturnType<typeof setTimeout> | undefined;
    const late = new Promise<Result<Value, DecodeError>>((resolve) => {
      timer = setTimeout(() => {
        this.stop();
        resolve(failure({ kind: 'took-too-long', seconds: TIME_LIMIT_MS / 1000 }));
      }, TIME_LIMIT_MS);
    });
    try {
      return await Promise.race([ask(this.start()), late]);
    } catch (thrown) {
      this.stop();
      const detail = thrown instanceof Error ? thrown.message : String(thrown);
      return failure({ kind: 'decoder-stopped', detail });
    } finally {
      clearTimeout(timer);
      this.idle = setTimeout(() => this.stop(), IDLE_MS);
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
