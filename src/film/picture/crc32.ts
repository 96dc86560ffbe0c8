/** CRC-32 of ISO 3309, as 5.5 of the PNG standard asks for; short enough here to be taken bit by bit. */
export function crc32(bytes: Uint8Array): number {
  let remainder = 0xffffffff;
  for (const byte of bytes) {
    remainder ^= byte;
    for (let bit = 0; bit < 8; bit += 1) {
      remainder = (remainder >>> 1) ^ (remainder & 1 ? 0xedb88320 : 0);
    }
  }
  return (remainder ^ 0xffffffff) >>> 0;
}
