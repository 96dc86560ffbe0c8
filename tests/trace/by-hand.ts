import type { Taps } from '../../src/trace/request.ts';

/**
 * What the four taps give without any tracing: base to broken end, and broken end to the head's end. Square
 * pixels. Degrees, clockwise as displayed.
 */
export function manualTurn({ base, proximalEnd, distalEnd, headEnd }: Taps): number {
  const px = proximalEnd.column - base.column;
  const py = proximalEnd.row - base.row;
  const qx = headEnd.column - distalEnd.column;
  const qy = headEnd.row - distalEnd.row;
  return (Math.atan2(px * qy - py * qx, px * qx + py * qy) * 180) / Math.PI;
}
