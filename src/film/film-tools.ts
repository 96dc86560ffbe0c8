/**
 * What a film reader needs from its surroundings: a browser and Node keep the codecs in different places, so
 * the places are passed in and this layer stays free of both.
 */

/** The codecs that are WebAssembly; each is loaded when a film first needs it. */
export type WasmCodec = 'jpeg' | 'jpeg-ls' | 'jpeg-2000' | 'htj2k';

/** Where the WebAssembly of a codec is: an address the browser may fetch, or the bytes themselves. */
type WasmLocation =
  | { readonly kind: 'url'; readonly url: string }
  | { readonly kind: 'bytes'; readonly bytes: Uint8Array };

export interface FilmTools {
  readonly wasm: (codec: WasmCodec) => Promise<WasmLocation>;
}
