import * as Comlink from 'comlink';
import { type Contents, lookInside, type NamedFile } from '../film/container.ts';
import type { Film, FilmError, FirstPicture } from '../film/film.ts';
import type { FilmTools, WasmCodec } from '../film/film-tools.ts';
import { identityOf } from '../film/identity.ts';
import { readFilm } from '../film/read-film.ts';
import type { FilmPart } from '../geometry/film-part.ts';
import { hexadecimal } from '../geometry/hexadecimal.ts';
import type { Result } from '../geometry/result.ts';

/** What the page may ask of this worker, through comlink. */
export interface DecodeWorker {
  /**
   * Decodes one picture of a file, or a part of it. The pixels of the film are handed over, not copied.
   *
   * Has no time limit of its own and cannot be interrupted: a hostile file can keep a codec busy for ever. The
   * caller sets a limit, and ends a late or unwanted request by ending the worker.
   *
   * @param bytes - The whole file; pass it with `Comlink.transfer`, after taking its hash.
   * @param frame - Counted from 0. A file that holds several says so in `film.frame`.
   * @param part - Taken out of the decoded picture; null or absent: the whole.
   * @param onFirst - A `Comlink.proxy`, given a coarse picture of the whole before it is decoded, where `readFilm` has
   *   one to give; never of a part.
   */
  decode(
    bytes: ArrayBuffer,
    frame?: number,
    part?: FilmPart | null,
    onFirst?: ((picture: FirstPicture) => void) | null,
  ): Promise<Result<Film, FilmError>>;
  /**
   * Sorts dropped files, opening archives, into those that may be films and the rest with the reason. The bytes
   * of the films are handed over.
   */
  lookInside(files: readonly NamedFile[]): Promise<Contents>;
  /**
   * A key that is equal for two films of the same patient: HMAC-SHA-256 of what names the patient, under a
   * secret of this device, so that it cannot be guessed back and means nothing elsewhere. The name itself never
   * leaves the worker.
   *
   * @param bytes - The whole file.
   * @param secret - 32 random bytes, the same for the films to be compared.
   * @returns 64 hexadecimal digits; null where the file names no patient.
   */
  patientKey(bytes: ArrayBuffer, secret: Uint8Array): Promise<string | null>;
}

/** Addresses of the WebAssembly files; the build copies the files and each is fetched when first needed. */
const WASM_URLS: Readonly<Record<WasmCodec, () => Promise<{ default: string }>>> = {
  jpeg: () => import('@cornerstonejs/codec-libjpeg-turbo-8bit/decodewasm?url'),
  'jpeg-ls': () => import('@cornerstonejs/codec-charls/decodewasm?url'),
  'jpeg-2000': () => import('@cornerstonejs/codec-openjpeg/decodewasm?url'),
  htj2k: () => import('@cornerstonejs/codec-openjph/wasm?url'),
};

/** Cutting and straightening bring linear algebra with them, which most films never need. */
const partOf = async (film: Film, part: FilmPart): Promise<Result<Film, FilmError>> => {
  const { takePart } = await import('../film/take-part.ts');
  return takePart(film, part);
};

const tools: FilmTools = {
  wasm: async (codec) => ({ kind: 'url', url: (await WASM_URLS[codec]()).default }),
};

const worker: DecodeWorker = {
  async decode(bytes, frame = 0, part = null, onFirst = null) {
    const handOver = (first: FirstPicture) =>
      onFirst?.(Comlink.transfer(first, [first.level.pixels.buffer as ArrayBuffer]));
    const coarse = part === null && onFirst !== null ? handOver : null;
    const whole = await readFilm(new Uint8Array(bytes), tools, frame, coarse);
    const result = whole.ok && part !== null ? await partOf(whole.value, part) : whole;
    if (!result.ok) return result;
    const buffers = new Set(result.value.levels.map(({ pixels }) => pixels.buffer as ArrayBuffer));
    return Comlink.transfer(result, [...buffers]);
  },
  async lookInside(files) {
    const contents = lookInside(files);
    const buffers = new Set(contents.films.map(({ bytes }) => bytes.buffer as ArrayBuffer));
    return Comlink.transfer(contents, [...buffers]);
  },
  async patientKey(bytes, secret) {
    const identity = identityOf(new Uint8Array(bytes));
    if (identity === null) return null;
    const hash = { name: 'HMAC', hash: 'SHA-256' };
    const key = await crypto.subtle.importKey('raw', secret.slice(), hash, false, ['sign']);
    const signed = new Uint8Array(await crypto.subtle.sign('HMAC', key, new TextEncoder().encode(identity)));
    return hexadecimal(signed);
  },
};

Comlink.expose(worker);
