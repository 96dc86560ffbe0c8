/** What the bytes of a file are, judged by content and never by name. */
export type Sniffed =
  | { readonly kind: 'dicom' }
  /** DICOM without the 128-byte preamble, from its first data element. */
  | { readonly kind: 'bare-dicom'; readonly transferSyntaxUid: string | 'in-meta-header' }
  | { readonly kind: 'png' }
  | { readonly kind: 'jpeg' }
  | { readonly kind: 'other'; readonly looksLike: string | null };

const ascii = (bytes: Uint8Array, from: number, to: number) =>
  String.fromCharCode(...bytes.subarray(from, Math.min(to, bytes.length)));

/** Signatures of files people drop by mistake, so that the refusal can name what they are. */
const OTHERS: readonly (readonly [offset: number, signature: string, name: string])[] = [
  [0, '%PDF', 'a PDF document'],
  [0, 'PK\x03\x04', 'a ZIP archive'],
  [0, '\x1f\x8b', 'a gzip archive'],
  [0, 'GIF8', 'a GIF picture'],
  [0, 'II*\0', 'a TIFF picture'],
  [0, 'MM\0*', 'a TIFF picture'],
  [8, 'WEBP', 'a WebP picture'],
  [4, 'ftyphei', 'a HEIC picture'],
  [4, 'ftypmif1', 'a HEIC picture'],
  [4, 'ftypavif', 'an AVIF picture'],
  [4, 'ftyp', 'a video'],
  [0, '\xffO\xffQ', 'a JPEG 2000 picture outside DICOM'],
  [4, 'jP  ', 'a JPEG 2000 picture outside DICOM'],
  [0, 'BM', 'a BMP picture'],
];

const EXPLICIT_VR = /^(AE|AS|AT|CS|DA|DS|DT|FD|FL|IS|LO|LT|OB|OW|PN|SH|SL|SQ|SS|ST|TM|UI|UL|UN|US|UT)$/;

function bareDicom(bytes: Uint8Array): Sniffed | null {
  if (bytes.length < 16) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const explicit = EXPLICIT_VR.test(ascii(bytes, 4, 6));
  const groups = [0x0002, 0x0008];
  const little = view.getUint16(0, true);
  if (groups.includes(little) && view.getUint16(2, true) <= 0x0100) {
    if (little === 0x0002 && explicit) return { kind: 'bare-dicom', transferSyntaxUid: 'in-meta-header' };
    if (explicit) return { kind: 'bare-dicom', transferSyntaxUid: '1.2.840.10008.1.2.1' };
    const length = view.getUint32(4, true);
    return little === 0x0008 && length < bytes.length
      ? { kind: 'bare-dicom', transferSyntaxUid: '1.2.840.10008.1.2' }
      : null;
  }
  return explicit && view.getUint16(0, false) === 0x0008 && view.getUint16(2, false) <= 0x0100
    ? { kind: 'bare-dicom', transferSyntaxUid: '1.2.840.10008.1.2.2' }
    : null;
}

function looksLikeText(bytes: Uint8Array): boolean {
  const start = bytes.subarray(0, 512);
  return start.every((byte) => byte === 9 || byte === 10 || byte === 13 || (byte >= 32 && byte !== 127));
}

/** Judges a file by its first bytes. Never throws; `bytes` may be of any length. */
export function sniff(bytes: Uint8Array): Sniffed {
  if (ascii(bytes, 128, 132) === 'DICM') return { kind: 'dicom' };
  if (ascii(bytes, 0, 8) === '\x89PNG\r\n\x1a\n') return { kind: 'png' };
  if (ascii(bytes, 0, 3) === '\xff\xd8\xff') return { kind: 'jpeg' };
  const other = OTHERS.find(
    ([offset, signature]) => ascii(bytes, offset, offset + signature.length) === signature,
  );
  if (other !== undefined) return { kind: 'other', looksLike: other[2] };
  const bare = bareDicom(bytes);
  if (bare !== null) return bare;
  return { kind: 'other', looksLike: looksLikeText(bytes) ? 'a text file' : null };
}
