/** The shapes of codec packages that bring no types of their own. */

declare module '@cornerstonejs/codec-charls/decodewasmjs' {
  const factory: import('./wasm-decoder.ts').WasmFactory;
  export default factory;
}
declare module '@cornerstonejs/codec-libjpeg-turbo-8bit/decodewasmjs' {
  const factory: import('./wasm-decoder.ts').WasmFactory;
  export default factory;
}
declare module '@cornerstonejs/codec-openjpeg/decodewasmjs' {
  const factory: import('./wasm-decoder.ts').WasmFactory;
  export default factory;
}
declare module '@cornerstonejs/codec-openjph/wasmjs' {
  const factory: import('./wasm-decoder.ts').WasmFactory;
  export default factory;
}
declare module 'jpeg-lossless-decoder-js' {
  export class Decoder {
    /** Rows decoded; equal to the height when the stream was whole. */
    yLoc: number;
    decode(
      buffer: ArrayBufferLike,
      offset: number,
      length: number,
      bytesPerSample: number,
    ): Uint8Array | Uint16Array;
  }
}
