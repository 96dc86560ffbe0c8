import { Inflate, Unzlib } from 'fflate';

/** Deflate turns at most so many bytes into one (zlib technical details, maximum compression factor). */
export const GREATEST_EXPANSION = 1032;

/** Small, since a step can give `GREATEST_EXPANSION` times as much, which is counted only once it is all there. */
const STEP_BYTES = 1 << 14;

/** Radiographs have grain, and shrink to a tenth or so; common practice, no source. */
const BELIEVABLE_EXPANSION = 100;
/** Below this a blank picture may well shrink to almost nothing. */
const SMALL_BYTES = 64_000_000;

/** The most bytes that packed data of this size is unpacked to: a small file that fills the memory is an attack. */
export const mostUnpackedBytes = (packedBytes: number): number =>
  Math.max(SMALL_BYTES, BELIEVABLE_EXPANSION * packedBytes);

/** Thrown when deflated data grows beyond what it may. */
export class InflatedTooFar extends Error {}

/** Feeds deflated data in steps and counts what comes out, so that a small hostile file is stopped early. */
function inSteps(
  pieces: readonly Uint8Array[],
  limitBytes: number,
  make: (take: (chunk: Uint8Array) => void) => Inflate | Unzlib,
  take: (chunk: Uint8Array) => void,
): void {
  const packedBytes = pieces.reduce((sum, piece) => sum + piece.length, 0);
  const most = Math.min(limitBytes, mostUnpackedBytes(packedBytes));
  let total = 0;
  const stream = make((chunk) => {
    total += chunk.length;
    if (total > most) throw new InflatedTooFar(`it inflates to more than ${most} bytes`);
    take(chunk);
  });
  for (const piece of pieces) {
    for (let at = 0; at < piece.length; at += STEP_BYTES) stream.push(piece.subarray(at, at + STEP_BYTES));
  }
  stream.push(new Uint8Array(0), true);
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}

/**
 * Inflates raw deflate data (RFC 1951).
 *
 * @param before - Bytes that the result begins with.
 * @throws InflatedTooFar beyond `limitBytes`; whatever fflate throws for data that is not deflated.
 */
export function inflateRaw(
  deflated: Uint8Array,
  limitBytes: number,
  before: Uint8Array = new Uint8Array(0),
): Uint8Array {
  const chunks: Uint8Array[] = [before];
  inSteps(
    [deflated],
    limitBytes,
    (take) => new Inflate(take),
    (chunk) => chunks.push(chunk),
  );
  return joined(chunks);
}

/** The first bytes that raw deflate data gives, at least `enoughBytes` of them where it holds as many. Throws as `inflateRaw`. */
export function inflateStart(
  deflated: Uint8Array,
  enoughBytes: number,
  before: Uint8Array = new Uint8Array(0),
): Uint8Array {
  const chunks: Uint8Array[] = [before];
  let total = 0;
  const stream = new Inflate((chunk) => {
    chunks.push(chunk);
    total += chunk.length;
  });
  for (let at = 0; at < deflated.length && total < enoughBytes; at += STEP_BYTES)
    stream.push(deflated.subarray(at, at + STEP_BYTES));
  return joined(chunks);
}

/** Inflates zlib data (RFC 1950). Throws as `inflateRaw`. */
export function inflateZlib(packed: Uint8Array, limitBytes: number): Uint8Array {
  const chunks: Uint8Array[] = [];
  inSteps(
    [packed],
    limitBytes,
    (take) => new Unzlib(take),
    (chunk) => chunks.push(chunk),
  );
  return joined(chunks);
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
