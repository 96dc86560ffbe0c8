import { Inflate, Unzlib } from 'fflate';

const STEP_BYTES = 1 << 18;

/** Thrown when deflated data grows beyond what it may. */
export class InflatedTooFar extends Error {}

/** Feeds deflated data in steps and counts what comes out, so that a small hostile file is stopped early. */
function inSteps(
  pieces: readonly Uint8Array[],
  limitBytes: number,
  make: (take: (chunk: Uint8Array) => void) => Inflate | Unzlib,
  take: (chunk: Uint8Array) => void,
): void {
  let total = 0;
  const stream = make((chunk) => {
    total += chunk.length;
    if (total > limitBytes) throw new InflatedTooFar(`it inflates to more than ${limitBytes} bytes`);
    take(chunk);
  });
  for (const piece of pieces) {
    for (let at = 0; at < piece.length; at += STEP_BYTES) stream.push(piece.subarray(at, at + STEP_BYTES));
  }
  stream.push(new Uint8Array(0), true);
}

/**
 * Inflates raw deflate data (RFC 1951).
 *
 * @throws InflatedTooFar beyond `limitBytes`; whatever fflate throws for data that is not deflated.
 */
export function inflateRaw(deflated: Uint8Array, limitBytes: number): Uint8Array {
  const chunks: Uint8Array[] = [];
  inSteps(
    [deflated],
    limitBytes,
    (take) => new Inflate(take),
    (chunk) => chunks.push(chunk),
  );
  const inflated = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    inflated.set(chunk, at);
    at += chunk.length;
  }
  return inflated;
}

/** Whether zlib data (RFC 1950) in pieces stays within a number of bytes; damage is for the decoder to find. */
export function staysWithin(pieces: readonly Uint8Array[], limitBytes: number): boolean {
  try {
    inSteps(
      pieces,
      limitBytes,
      (take) => new Unzlib(take),
      () => {},
    );
    return true;
  } catch (thrown) {
    return !(thrown instanceof InflatedTooFar);
  }
}
