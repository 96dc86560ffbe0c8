import { hexadecimal } from '../geometry/hexadecimal.ts';

/** Lower-case hexadecimal SHA-256 of bytes. */
export async function sha256Of(bytes: BufferSource): Promise<string> {
  return hexadecimal(new Uint8Array(await crypto.subtle.digest('SHA-256', bytes)));
}
