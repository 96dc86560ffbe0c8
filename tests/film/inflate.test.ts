import { deflateRawSync, deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { InflatedTooFar, inflateRaw, staysWithin } from '../../src/film/inflate.ts';

// Deflated by zlib, which Node brings.
const data = Uint8Array.from({ length: 1_000_000 }, (_, i) => (i * i) >> 7);

describe('inflateRaw', () => {
  it('gives back what zlib deflated', () => {
    expect(inflateRaw(deflateRawSync(data), data.length)).toEqual(data);
  });

  it('stops at the limit', () => {
    expect(() => inflateRaw(deflateRawSync(data), data.length - 1)).toThrow(InflatedTooFar);
  });

  it('throws at data that is not deflated, or is cut short', () => {
    expect(() => inflateRaw(Uint8Array.of(0xff, 0xff, 0xff), 100)).toThrow();
    expect(() => inflateRaw(deflateRawSync(data).subarray(0, 1000), data.length)).toThrow();
  });
});

describe('staysWithin', () => {
  const deflated = deflateSync(data);
  const pieces = [deflated.subarray(0, 1000), deflated.subarray(1000)];

  it.each([
    [data.length, true],
    [data.length - 1, false],
  ])('%i bytes: %s', (limit, within) => {
    expect(staysWithin(pieces, limit)).toBe(within);
  });

  it('leaves damage to the decoder', () => {
    expect(staysWithin([Uint8Array.of(1, 2, 3)], 10)).toBe(true);
  });
});
