/** The shapes of codec packages that bring no types of their own; the four WebAssembly ones are alike. */

declare module '@cornerstonejs/codec-openjph/wasmjs' {
  export interface WasmDecoder {
    getEncodedBuffer(length: number): Uint8Array;
    decode(): void;
    /** JPEG 2000 only: leaves the finest resolutions out; `layers` of 0 are all. */
    decodeSubResolution(discarded: number, layers: number): void;
    /** Of the whole picture, also where finer resolutions were left out. */
    getFrameInfo(): {
      readonly width: number;
      readonly height: number;
      readonly bitsPerSample: number;
      readonly componentCount: number;
    };
    /** JPEG-LS only: ILV of the scan header (ITU-T T.87 C.2.3); 0: each component in a scan of its own. */
    getInterleaveMode?(): number;
    getDecodedBuffer(): Uint8Array;
    delete(): void;
  }
  export type WasmModule = Readonly<Record<string, new () => WasmDecoder>>;
  export type WasmFactory = (options: {
    readonly locateFile?: () => string;
    readonly wasmBinary?: Uint8Array;
    readonly print: (line: string) => void;
    readonly printErr: (line: string) => void;
  }) => Promise<WasmModule>;
  const factory: WasmFactory;
  export default factory;
}
declare module '@cornerstonejs/codec-charls/decodewasmjs' {
  export { default } from '@cornerstonejs/codec-openjph/wasmjs';
}
declare module '@cornerstonejs/codec-libjpeg-turbo-8bit/decodewasmjs' {
  export { default } from '@cornerstonejs/codec-openjph/wasmjs';
}
declare module '@cornerstonejs/codec-openjpeg/decodewasmjs' {
  export { default } from '@cornerstonejs/codec-openjph/wasmjs';
}
