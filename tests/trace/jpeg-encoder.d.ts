/** The part of the package that writes JPEG files, which brings no types of its own. */
declare module '@cornerstonejs/codec-libjpeg-turbo-8bit/wasmjs' {
  interface Encoder {
    getDecodedBuffer(frame: {
      readonly width: number;
      readonly height: number;
      readonly bitsPerSample: number;
      readonly componentCount: number;
      readonly isSigned: boolean;
    }): Uint8Array;
    setQuality(quality: number): void;
    encode(): void;
    getEncodedBuffer(): Uint8Array;
    delete(): void;
  }
  interface Decoder {
    getEncodedBuffer(length: number): Uint8Array;
    decode(): void;
    getDecodedBuffer(): Uint8Array;
    delete(): void;
  }
  const factory: () => Promise<{
    readonly JPEGEncoder: new () => Encoder;
    readonly JPEGDecoder: new () => Decoder;
  }>;
  export default factory;
}
