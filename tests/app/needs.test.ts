import { describe, expect, it } from 'vitest';
import { type Browser, cannotStart } from '../../src/app/needs.ts';

const whole: Browser = { isSecureContext: true, Worker: class {}, OffscreenCanvas: class {}, Array };

describe('what the app needs to start', () => {
  it('is there in a browser of today', () => {
    expect(cannotStart(whole)).toBeNull();
  });

  it.each([
    ['an unprotected page', { isSecureContext: false }, /unprotected.*https/],
    ['no workers', { Worker: undefined }, /no workers.*current version/],
    ['no canvas beside the page', { OffscreenCanvas: undefined }, /OffscreenCanvas.*current version/],
    ['an older language', { Array: { prototype: {} } }, /older.*current version/],
  ] as const)('%s: says what is missing and what to do', (_name, without, says) => {
    expect(cannotStart({ ...whole, ...without })).toMatch(says);
  });
});
