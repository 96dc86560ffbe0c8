/** How the pixel data of a transfer syntax is decoded. */
export type PixelEncoding = 'native' | 'rle' | 'jpeg' | 'jpeg-ls' | 'jpeg-2000' | 'htj2k' | 'deflated-frame';

export interface TransferSyntax {
  readonly uid: string;
  /** Name as in PS3.6 table A-1, shortened to what tells it apart. */
  readonly name: string;
  /** Null: not read. */
  readonly encoding: PixelEncoding | null;
  readonly bigEndian: boolean;
  /** True where every such stream is lossy; null where the syntax does not say. */
  readonly lossy: boolean | null;
}

const row = (
  tail: string,
  name: string,
  encoding: PixelEncoding | null,
  lossy: boolean | null = false,
): TransferSyntax => ({
  uid: `1.2.840.10008.1.2${tail}`,
  name,
  encoding,
  bigEndian: tail === '.2',
  lossy,
});

/** PS3.5 Annex A and PS3.6 table A-1. */
const TRANSFER_SYNTAXES: readonly TransferSyntax[] = [
  row('', 'Implicit VR Little Endian', 'native'),
  row('.1', 'Explicit VR Little Endian', 'native'),
  row('.1.99', 'Deflated Explicit VR Little Endian', 'native'),
  row('.2', 'Explicit VR Big Endian', 'native'),
  row('.5', 'RLE Lossless', 'rle'),
  row('.8.1', 'Deflated Image Frame Compression', 'deflated-frame'),
  row('.4.50', 'JPEG Baseline', 'jpeg', true),
  row('.4.51', 'JPEG Extended', 'jpeg', true),
  row('.4.57', 'JPEG Lossless', 'jpeg'),
  row('.4.70', 'JPEG Lossless, first-order prediction', 'jpeg'),
  row('.4.80', 'JPEG-LS Lossless', 'jpeg-ls'),
  row('.4.81', 'JPEG-LS Near-Lossless', 'jpeg-ls', null),
  row('.4.90', 'JPEG 2000 Lossless', 'jpeg-2000'),
  row('.4.91', 'JPEG 2000', 'jpeg-2000', null),
  row('.4.92', 'JPEG 2000 Part 2 Multi-component Lossless', null),
  row('.4.93', 'JPEG 2000 Part 2 Multi-component', null, null),
  row('.4.94', 'JPIP Referenced', null, null),
  row('.4.95', 'JPIP Referenced Deflate', null, null),
  row('.4.100', 'MPEG2 Main Profile', null, true),
  row('.4.101', 'MPEG2 High Level', null, true),
  row('.4.102', 'MPEG-4 AVC/H.264 High Profile', null, true),
  row('.4.103', 'MPEG-4 AVC/H.264 BD-compatible', null, true),
  row('.4.107', 'HEVC/H.265 Main Profile', null, true),
  row('.4.108', 'HEVC/H.265 Main 10 Profile', null, true),
  row('.4.110', 'JPEG XL Lossless', null),
  row('.4.111', 'JPEG XL JPEG Recompression', null, true),
  row('.4.112', 'JPEG XL', null, null),
  row('.4.201', 'High-Throughput JPEG 2000 Lossless', 'htj2k'),
  row('.4.202', 'High-Throughput JPEG 2000 with RPCL Lossless', 'htj2k'),
  row('.4.203', 'High-Throughput JPEG 2000', 'htj2k', null),
];

/** The syntax of a UID; one not in PS3.6 as known here is named as unknown and not read. */
export const transferSyntax = (uid: string): TransferSyntax =>
  TRANSFER_SYNTAXES.find((syntax) => syntax.uid === uid) ?? {
    uid,
    name: 'an unknown transfer syntax',
    encoding: null,
    bigEndian: false,
    lossy: null,
  };
