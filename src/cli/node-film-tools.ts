import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { FilmTools, WasmCodec } from '../film/film-tools.ts';

const WASM_FILES: Readonly<Record<WasmCodec, string>> = {
  jpeg: '@cornerstonejs/codec-libjpeg-turbo-8bit/decodewasm',
  'jpeg-ls': '@cornerstonejs/codec-charls/decodewasm',
  'jpeg-2000': '@cornerstonejs/codec-openjpeg/decodewasm',
  htj2k: '@cornerstonejs/codec-openjph/wasm',
};

const { resolve } = createRequire(import.meta.url);

/** The surroundings of a film reader in Node: the codecs of the installed packages. */
export const nodeFilmTools: FilmTools = {
  wasm: async (codec) => ({ kind: 'bytes', bytes: await readFile(resolve(WASM_FILES[codec])) }),
};
