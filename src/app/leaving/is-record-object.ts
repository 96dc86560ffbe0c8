/** Bytes from the start of a file within which its file meta information says what it is. */
export const START_BYTES = 1024;

/** (0002,0002) in explicit VR little endian, as file meta information always is (PS3.10 7.1). */
const CLASS = '\u0002\u0000\u0002\u0000UI';
/** Structured reports and presentation states: PS3.4 B.5. */
const RECORD_CLASSES = ['1.2.840.10008.5.1.4.1.1.88.', '1.2.840.10008.5.1.4.1.1.11.'];

/**
 * Whether a file says that it is a DICOM report or presentation state, which holds no film.
 *
 * @param start - Its first `START_BYTES`.
 */
export function isRecordObject(start: Uint8Array): boolean {
  const text = new TextDecoder('latin1').decode(start);
  if (text.slice(128, 132) !== 'DICM') return false;
  const at = text.indexOf(CLASS, 132);
  if (at < 0) return false;
  const uid = text.slice(at + CLASS.length + 2);
  return RECORD_CLASSES.some((known) => uid.startsWith(known));
}
