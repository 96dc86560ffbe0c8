import * as Comlink from 'comlink';
import type { Film, FilmError } from '../film/film.ts';
import type { FilmTools, WasmCodec } from '../film/film-tools.ts';
import { readFilm } from '../film/read-film.ts';
import type { Result } from '../geometry/result.ts';

/** What the page may ask of this worker, through comlink. */
export interface DecodeWorker {
  /**
   * Decodes one picture of a file. The pixels of the film are handed over, not copied.
   *
   * Has no time limit of its own and cannot be interrupted: a hostile file can keep a codec busy for ever. The
   * caller sets a limit, and ends a late or unwanted request by ending the worker.
   *
   * @param bytes - The whole file; pass it with `Comlink.transfer`, after taking its hash.
   * @param frame - Counted from 0. A file that holds several says so in `film.frame`.
   */
  decode(bytes: ArrayBuffer, frame?: number): Promise<Result<Film, FilmError>>;
}

/** Addresses of the WebAssembly files; the build copies the files and each is fetched when first needed. */
const WASM_URLS: Readonly<Record<WasmCodec, () => Promise<{ default: string }>>> = {
  jpeg: () => import('@cornerstonejs/codec-libjpeg-turbo-8bit/decodewasm?url'),
  'jpeg-ls': () => import('@cornerstonejs/codec-charls/decodewasm?url'),
  'jpeg-2000': () => import('@cornerstonejs/codec-openjpeg/decodewasm?url'),
  htj2k: () => import('@cornerstonejs/codec-openjph/wasm?url'),
};

const tools: FilmTools = {
  wasm: async (codec) => ({ kind: 'url', url: (await WASM_URLS[codec]()).default }),
};

const worker: DecodeWorker = {
  async decode(bytes, frame = 0) {
    const result = await readFilm(new Uint8Array(bytes), tools, frame);
    if (!result.ok) return result;
    const buffers = new Set(result.value.levels.map(({ pixels }) => pixels.buffer as ArrayBuffer));
    return Comlink.transfer(result, [...buffers]);
  },
};

Comlink.expose(worker);
