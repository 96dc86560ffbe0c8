import { hexadecimal } from '../../geometry/hexadecimal.ts';
import type { KeyedHash } from '../../record/dicom/uids.ts';

const KEY = 'raybend-secret';
const BYTES = 32;

let held: Promise<KeyedHash> | null = null;

/**
 * HMAC-SHA-256 with the secret of this browser, made at its first use and kept in local storage, beside the look
 * and outside the database, so that no case file or archive can hold it. Where nothing is kept, it lasts as long
 * as the page.
 */
export function keyedHash(): Promise<KeyedHash> {
  held ??= hashWith(keptSecret());
  return held;
}

function keptSecret(): Uint8Array<ArrayBuffer> {
  try {
    const kept = localStorage.getItem(KEY);
    if (kept !== null && /^[0-9a-f]{64}$/.test(kept)) {
      return Uint8Array.from({ length: BYTES }, (_, at) =>
        Number.parseInt(kept.slice(2 * at, 2 * at + 2), 16),
      );
    }
    const made = crypto.getRandomValues(new Uint8Array(BYTES));
    localStorage.setItem(KEY, hexadecimal(made));
    return made;
  } catch {
    return crypto.getRandomValues(new Uint8Array(BYTES));
  }
}

async function hashWith(secret: Uint8Array<ArrayBuffer>): Promise<KeyedHash> {
  const key = await crypto.subtle.importKey('raw', secret, { name: 'HMAC', hash: 'SHA-256' }, false, [
    'sign',
  ]);
  return async (text) =>
    new Uint8Array(await crypto.subtle.sign('HMAC', key, new TextEncoder().encode(text)));
}
