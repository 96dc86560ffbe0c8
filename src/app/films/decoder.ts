import * as Comlink from 'comlink';
import type { FilmPlace } from '../../case/document.ts';
import type { Contents, NamedFile } from '../../film/container.ts';
import type { Film, FilmError, FirstPicture } from '../../film/film.ts';
import { sentence } from '../../film/film-error.ts';
import { failure, type Result, success } from '../../geometry/result.ts';
import type { DecodeWorker } from '../../workers/decode.ts';
import { LimitedWorker } from '../limited-worker.ts';

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
  private readonly worker = new LimitedWorker<DecodeWorker>(
    () => new Worker(new URL('../../workers/decode.ts', import.meta.url), { type: 'module' }),
    TIME_LIMIT_MS,
    IDLE_MS,
  );
  /** Made anew with each page, so that keys mean nothing elsewhere or later. */
  private readonly secret = crypto.getRandomValues(new Uint8Array(32));

  async decode(bytes: ArrayBuffer, place?: FilmPlace, onFirst?: OnFirst): Promise<Result<Film, DecodeError>> {
    let answered = false;
    const first = onFirst && Comlink.proxy((picture: FirstPicture) => void (answered || onFirst(picture)));
    const answer = await this.ask((remote) =>
      remote.decode(Comlink.transfer(bytes, [bytes]), place?.frame ?? 0, place?.part ?? null, first ?? null),
    );
    answered = true;
    return answer;
  }

  lookInside(file: NamedFile): Promise<Result<Contents, DecodeError>> {
    const { buffer } = file.bytes;
    return this.ask(async (remote) =>
      success(await remote.lookInside(Comlink.transfer([file], [buffer as ArrayBuffer]))),
    );
  }

  patientKey(bytes: ArrayBuffer): Promise<Result<string | null, DecodeError>> {
    return this.ask(async (remote) =>
      success(await remote.patientKey(Comlink.transfer(bytes, [bytes]), this.secret)),
    );
  }

  private async ask<Value>(
    question: (remote: Comlink.Remote<DecodeWorker>) => Promise<Result<Value, FilmError>>,
  ): Promise<Result<Value, DecodeError>> {
    const answer = await this.worker.ask(question);
    if (answer.ok) return answer.value;
    return failure(
      answer.error.kind === 'worker-stopped'
        ? { kind: 'decoder-stopped', detail: answer.error.detail }
        : { kind: 'took-too-long', seconds: TIME_LIMIT_MS / 1000 },
    );
  }
}
