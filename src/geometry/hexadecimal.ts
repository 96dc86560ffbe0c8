/** Bytes as lower-case hexadecimal, two digits each. */
export const hexadecimal = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
