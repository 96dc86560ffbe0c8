import { hexadecimal } from '../../geometry/hexadecimal.ts';
/**
 * UIDs under 2.25, the arc of UUIDs (PS3.5 B.2, ITU-T X.667): the decimal of the 128 bits, no leading zeros,
 * at most 44 characters.
 */

/** A keyed hash of text: HMAC-SHA256 with a secret that stays on this computer, 32 bytes. From the shell. */
export type KeyedHash = (text: string) => Promise<Uint8Array>;

/** The UID of a UUID such as `crypto.randomUUID()` gives. Throws for anything else. */
export function uidFromUuid(uuid: string): string {
  if (!/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i.test(uuid)) throw new RangeError(`no UUID: ${uuid}`);
  return `2.25.${BigInt(`0x${uuid.replaceAll('-', '')}`)}`;
}

/**
 * A UID from the first 128 bits of a hash, with the version and variant bits of a name-based UUID of vendor
 * form set (RFC 9562, version 8), so that it cannot meet a random one.
 */
export function uidFromHash(hash: Uint8Array): string {
  if (hash.length < 16) throw new RangeError(`a hash of ${hash.length} bytes makes no UID`);
  const bytes = hash.slice(0, 16);
  bytes[6] = ((bytes[6] as number) & 0x0f) | 0x80;
  bytes[8] = ((bytes[8] as number) & 0x3f) | 0x80;
  return `2.25.${BigInt(`0x${hexadecimal(bytes)}`)}`;
}

/** The same UID for the same text and secret, and no way back from one to the other without the secret. */
export const uidOf = async (hash: KeyedHash, text: string): Promise<string> => uidFromHash(await hash(text));
