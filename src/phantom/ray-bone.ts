import type { Break } from './fracture.ts';
import type { GrowthPlate } from './growth-plate.ts';
import type { PhantomRay } from './spec.ts';
import type { Tube } from './tube.ts';
import type { Placing } from './vector.ts';

/** A metacarpal in the hand. */
export interface RayBone {
  readonly ray: PhantomRay;
  readonly tube: Tube;
  readonly headRadius: number;
  readonly placing: Placing;
  readonly broken: Break | null;
  /** Null in a grown hand. */
  readonly plate: GrowthPlate | null;
}
