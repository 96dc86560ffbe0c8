import type { PointRef } from '../drawing/scene.ts';
import type { ScreenPoint } from '../geometry/units.ts';
import type { Pointer } from './tools/pointing.ts';

/** How far from the middle of a control point it can be taken hold of, CSS pixels: a finger is wide. */
export const REACH: Readonly<Record<Pointer['type'], number>> = { mouse: 12, pen: 16, touch: 22 };

export interface PlacedControl {
  readonly point: PointRef;
  readonly at: ScreenPoint;
}

/** The nearest control point within reach of the pointer; of two equally near the one drawn later. */
export function controlAt(
  controls: readonly PlacedControl[],
  { at, type }: Pick<Pointer, 'at' | 'type'>,
): PlacedControl | null {
  let nearest: PlacedControl | null = null;
  let least = REACH[type];
  for (const control of controls) {
    const distance = Math.hypot(control.at.x - at.x, control.at.y - at.y);
    if (distance <= least) {
      nearest = control;
      least = distance;
    }
  }
  return nearest;
}
