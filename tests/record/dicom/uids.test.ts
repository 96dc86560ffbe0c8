import { createHmac } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { uidFromHash, uidFromUuid, uidOf } from '../../../src/record/dicom/uids.ts';

describe('uidFromUuid', () => {
  it('gives the UID that the standard gives for its example', () => {
    // PS3.5 B.2 and ITU-T X.667, 6.3: the UUID f81d4fae-7dec-11d0-a765-00a0c91e6bf6.
    expect(uidFromUuid('f81d4fae-7dec-11d0-a765-00a0c91e6bf6')).toBe(
      '2.25.329800735698586629295641978511506172918',
    );
  });

  it('is a valid UID for any UUID: digits, no leading zeros, at most 64 characters (PS3.5 9.1)', () => {
    fc.assert(
      fc.property(fc.uuid(), (uuid) => {
        const uid = uidFromUuid(uuid);
        expect(uid).toMatch(/^2\.25\.(0|[1-9]\d*)$/);
        expect(uid.length).toBeLessThanOrEqual(64);
      }),
    );
  });

  it('throws for what is no UUID', () => {
    expect(() => uidFromUuid('not one')).toThrow(RangeError);
  });
});

describe('uidFromHash', () => {
  const hexOf = (uid: string) => BigInt(uid.slice('2.25.'.length)).toString(16).padStart(32, '0');

  it('is a name-based UUID of vendor form: version 8, variant 10 (RFC 9562, 4.1 and 5.8)', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 32, maxLength: 32 }), (hash) => {
        const hexadecimal = hexOf(uidFromHash(hash));
        expect(hexadecimal[12]).toBe('8');
        expect(hexadecimal[16]).toMatch(/[89ab]/);
        // Every other bit is the hash's own.
        expect(hexadecimal.slice(0, 12)).toBe(Buffer.from(hash.subarray(0, 6)).toString('hex'));
      }),
    );
  });

  it('throws for a hash that is too short', () => {
    expect(() => uidFromHash(new Uint8Array(8))).toThrow(RangeError);
  });

  it('is the same for the same secret and text only', async () => {
    const by = (secret: string) => async (text: string) => createHmac('sha256', secret).update(text).digest();
    expect(await uidOf(by('one'), '1.2.3')).toBe(await uidOf(by('one'), '1.2.3'));
    expect(await uidOf(by('one'), '1.2.3')).not.toBe(await uidOf(by('two'), '1.2.3'));
    expect(await uidOf(by('one'), '1.2.3')).not.toBe(await uidOf(by('one'), '1.2.4'));
  });
});
