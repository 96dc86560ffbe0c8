import { type DefaultSpecName, defaultSpec } from '../phantom/default-specs.ts';
import { type InventedFilm, inventFilm } from '../phantom/invent.ts';
import { seededRandom } from '../phantom/random.ts';
import type { InventedNames } from './invented-files.ts';

/** One film of sample-images/. */
export interface Sample extends InventedNames {
  readonly name: DefaultSpecName;
  readonly seed: number;
}

/** The same seed is the same invented person: size and shape of the hand do not change between views. */
export const SAMPLES: readonly Sample[] = [
  { name: 'small-neck-lateral', study: 'SMALL-NECK', instanceNumber: 1, seed: 11 },
  { name: 'small-neck-oblique', study: 'SMALL-NECK', instanceNumber: 2, seed: 11 },
  { name: 'small-neck-pa', study: 'SMALL-NECK', instanceNumber: 3, seed: 11 },
  { name: 'other-hand-lateral', study: 'SMALL-NECK', instanceNumber: 4, seed: 11 },
  { name: 'ring-shaft-pa', study: 'RING-SHAFT', instanceNumber: 1, seed: 24 },
];

/** Pixels of 0.19 mm, as a plate reader makes them, keep an uncompressed file below 2 MB. */
const SIZES = {
  upright: { columns: 780, rows: 1260 },
  flat: { columns: 820, rows: 1200 },
} as const;

export function sampleFilm({ name, seed }: Sample): InventedFilm {
  const spec = defaultSpec(name);
  const size = spec.view.turnDegrees > 20 ? SIZES.upright : SIZES.flat;
  return inventFilm({ ...spec, film: { ...spec.film, ...size, pitchMm: 0.19 } }, seededRandom(seed));
}
