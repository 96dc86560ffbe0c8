import type { WasmDecoder, WasmFactory, WasmModule } from '@cornerstonejs/codec-openjph/wasmjs';
import { failure, type Result, success } from '../../geometry/result.ts';
import type { FilmTools, WasmCodec } from '../film-tools.ts';

/** Imported when first needed, so that a film that needs no codec loads none. */
const CODECS: Readonly<
  Record<WasmCodec, { readonly className: string; readonly load: () => Promise<{ default: WasmFactory }> }>
> = {
  jpeg: {
    className: 'JPEGDecoder',
    load: () => import('@cornerstonejs/codec-libjpeg-turbo-8bit/decodewasmjs'),
  },
  'jpeg-ls': {
    className: 'JpegLSDecoder',
    load: () => import('@cornerstonejs/codec-charls/decodewasmjs'),
  },
  'jpeg-2000': {
    className: 'J2KDecoder',
    load: () => import('@cornerstonejs/codec-openjpeg/decodewasmjs'),
  },
  htj2k: { className: 'HTJ2KDecoder', load: () => import('@cornerstonejs/codec-openjph/wasmjs') },
};

/** Modules that are running. One that threw is dropped: its memory may be in any state. */
const running = new Map<WasmCodec, Promise<WasmModule>>();

const quiet = () => {};

async function start(codec: WasmCodec, tools: FilmTools): Promise<WasmModule> {
  const [{ default: factory }, location] = await Promise.all([CODECS[codec].load(), tools.wasm(codec)]);
  const where = location.kind === 'url' ? { locateFile: () => location.url } : { wasmBinary: location.bytes };
  return factory({ ...where, print: quiet, printErr: quiet });
}

export interface WasmPicture {
  readonly columns: number;
  readonly rows: number;
  readonly components: number;
  readonly bitsPerSample: number;
  /** Components one after another, each whole; else side by side in each pixel. */
  readonly planar: boolean;
  /** Little endian, one or two bytes a sample. A copy outside the codec's memory. */
  readonly bytes: Uint8Array;
}

/** Why a codec gave no picture. The codecs throw bare numbers (C++ exception pointers), which say nothing. */
export type WasmFailure = 'not-loaded' | 'refused';

/**
 * Decodes one stream. Fails with `not-loaded` when the codec itself could not be fetched or started, and with
 * `refused` when it could not read the stream.
 *
 * @param discarded - Of JPEG 2000: how many of the finest resolutions are left out, each of which halves the picture,
 *   rounded up. The stream must have that many. 0: none.
 */
export async function decodeWithWasm(
  codec: WasmCodec,
  encoded: Uint8Array,
  tools: FilmTools,
  discarded = 0,
): Promise<Result<WasmPicture, { readonly kind: WasmFailure }>> {
  let module: WasmModule;
  try {
    const starting = running.get(codec) ?? start(codec, tools);
    running.set(codec, starting);
    module = await starting;
  } catch {
    running.delete(codec);
    return failure({ kind: 'not-loaded' });
  }
  try {
    const Decoder = module[CODECS[codec].className] as new () => WasmDecoder;
    const decoder = new Decoder();
    decoder.getEncodedBuffer(encoded.length).set(encoded);
    if (discarded === 0) decoder.decode();
    else decoder.decodeSubResolution(discarded, 0);
    const info = decoder.getFrameInfo();
    const bytes = new Uint8Array(decoder.getDecodedBuffer());
    const planar = info.componentCount > 1 && decoder.getInterleaveMode?.() === 0;
    decoder.delete();
    return success({
      columns: Math.ceil(info.width / 2 ** discarded),
      rows: Math.ceil(info.height / 2 ** discarded),
      components: info.componentCount,
      bitsPerSample: info.bitsPerSample,
      planar,
      bytes,
    });
  } catch {
    running.delete(codec);
    return failure({ kind: 'refused' });
  }
}
