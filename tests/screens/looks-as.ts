import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { decode } from 'fast-png';
import { expect } from 'vitest';

/** Share of pixels that may differ: edges of letters move with the build of the browser. */
const MOST_DIFFERENT = 0.015;
/** Levels of one colour by which a pixel may differ and still count as the same. */
const SAME_WITHIN = 48;

/**
 * Compares a screenshot with the approved one. What differs is written beside it as `…-changed.png`, to be
 * looked at and, if right, put in its place by hand. Nothing is approved by running a test.
 */
export async function expectLooksAs(screenshot: Uint8Array, approvedPath: string): Promise<void> {
  const changedPath = approvedPath.replace(/\.png$/, '-changed.png');
  if (!existsSync(approvedPath)) {
    writeFileSync(changedPath, screenshot);
    expect.fail(`There is no approved ${approvedPath}. Look at ${changedPath} and rename it if it is right.`);
  }
  const now = decode(screenshot);
  const approved = decode(readFileSync(approvedPath));
  const share =
    now.width === approved.width && now.height === approved.height ? differentShare(now, approved) : 1;
  if (share > MOST_DIFFERENT) writeFileSync(changedPath, screenshot);
  expect(share, `${approvedPath} against ${changedPath}`).toBeLessThanOrEqual(MOST_DIFFERENT);
}

type Picture = ReturnType<typeof decode>;

function differentShare(one: Picture, other: Picture): number {
  let different = 0;
  const pixels = one.width * one.height;
  for (let i = 0; i < pixels; i += 1) {
    for (let channel = 0; channel < 3; channel += 1) {
      const a = one.data[i * one.channels + channel] ?? 0;
      const b = other.data[i * other.channels + channel] ?? 0;
      if (Math.abs(a - b) > SAME_WITHIN) {
        different += 1;
        break;
      }
    }
  }
  return different / pixels;
}
