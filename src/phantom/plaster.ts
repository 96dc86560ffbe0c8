import { cosine, sine } from './exact-maths.ts';
import type { RingMesh } from './ring-mesh.ts';

/** Plaster stops this share of what bone stops; from memory. */
export const PLASTER_SHARE = 0.19;

/** Its surface ripples like a bandage, mm. */
const ripple = (y: number, k: number): number =>
  0.35 * sine(y * 1.9 + k * 0.9) + 0.3 * sine(y * 0.7 - k * 1.3);

/** A plaster gutter round the ulnar side, in the hand's coordinates. */
export function gutter(size: number): RingMesh {
  const half = 40;
  const columns = 2 * half;
  const steps = 150;
  const rows = steps + 3;
  const points = new Float64Array(rows * columns * 3);
  for (let i = 0; i < rows; i += 1) {
    const share = Math.max(0, Math.min(1, (i - 1) / steps));
    const collapsed = i === 0 || i === rows - 1;
    const y = (-120 + 172 * share) * size;
    const spread = 1 + 0.12 * share;
    for (let j = 0; j < columns; j += 1) {
      const outside = j < half;
      const k = outside ? j : columns - 1 - j;
      const theta = (-0.62 + (1.24 * k) / (half - 1)) * Math.PI;
      const extra = collapsed ? 4 : outside ? 6.2 + ripple(y, k) : 2.4;
      points.set(
        [(6 + (27 * spread + extra) * cosine(theta)) * size, y, (-3.5 + (17 + extra) * sine(theta)) * size],
        (i * columns + j) * 3,
      );
    }
  }
  return { rows, columns, points };
}

/** Padding between skin and plaster, and thickness of the plaster, mm; from memory. */
const PADDING_MM = 4;
const CAST_MM = 4.5;

/**
 * A cast all round forearm and palm, up to the knuckles, in the hand's coordinates: its outside and its inside,
 * which is to be taken away from it.
 */
export function cast(size: number): { readonly outside: RingMesh; readonly inside: RingMesh } {
  const columns = 72;
  const steps = 170;
  const rows = steps + 3;
  const surface = (thickness: number, rippled: boolean): RingMesh => {
    const points = new Float64Array(rows * columns * 3);
    for (let i = 0; i < rows; i += 1) {
      const share = Math.max(0, Math.min(1, (i - 1) / steps));
      const y = (-250 + 316 * share) * size;
      // Wide over the palm, narrow at the wrist, wide again up the forearm.
      const palm = Math.max(0, Math.min(1, (y / size + 34) / 46));
      const forearm = Math.max(0, Math.min(1, (-y / size - 45) / 90));
      const halfUlnar = 26 + 9 * palm * palm * (3 - 2 * palm) + 8 * forearm;
      const halfDorsal = 18 + 3 * palm + 4 * forearm;
      const shut = i === 0 || i === rows - 1;
      for (let j = 0; j < columns; j += 1) {
        const theta = (2 * Math.PI * j) / columns;
        const extra = PADDING_MM + thickness + (rippled ? 1.8 * ripple(y, j) : 0);
        const across = shut ? 0 : halfUlnar + extra;
        const through = shut ? 0 : halfDorsal + extra;
        points.set(
          [(0.5 + across * cosine(theta)) * size, y, (-3 + through * sine(theta)) * size],
          (i * columns + j) * 3,
        );
      }
    }
    return { rows, columns, points };
  };
  return { outside: surface(CAST_MM, true), inside: surface(0, false) };
}
