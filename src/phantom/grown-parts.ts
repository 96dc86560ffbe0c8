import { type BonePart, tubePart } from './bone-part.ts';
import type { GrowthPlate } from './growth-plate.ts';
import type { PhantomRay } from './spec.ts';
import { type BreakSurface, type Stretch, type Tube, tablePlaces } from './tube.ts';
import type { Placing } from './vector.ts';

/** Thickness of the thin dense sheets of bone on both sides of the cartilage, and radius of their edges; by eye, mm. */
const SHEET_MM = 0.3;
const RIM_MM = 0.7;

/**
 * The pieces of a stretch of bone: one, or the two that a growth plate leaves of it. Cartilage stops about as
 * much as the soft tissue round it, so the plate is a gap.
 *
 * @param plate - Null in a grown bone.
 */
export function grownParts(
  name: string,
  ray: PhantomRay | null,
  placing: Placing,
  tube: Tube,
  stretch: Stretch,
  plate: GrowthPlate | null,
  textureSeed: number,
): BonePart[] {
  if (plate === null) return [tubePart(name, ray, placing, tube, stretch, textureSeed)];
  const narrowed = withRims(tube, plate);
  const proximalTo = (sheet: number) => nearer(stretch.to, plate.proximalFace, -sheet, Math.min);
  const distalFrom = (sheet: number) => nearer(stretch.from, plate.distalFace, sheet, Math.max);
  const proximal = (sheet: number): Stretch => ({ from: stretch.from, to: proximalTo(sheet) });
  const distal = (sheet: number): Stretch => ({ from: distalFrom(sheet), to: stretch.to });
  const [shaft, epiphysis] = plate.end === 'head' ? [proximal, distal] : [distal, proximal];
  const piece = (label: string, part: (sheet: number) => Stretch): BonePart =>
    tubePart(label, ray, placing, narrowed, part(0), textureSeed, part(SHEET_MM));
  return [piece(name, shaft), piece(`${name} epiphysis`, epiphysis)];
}

/** Whichever comes first of a break and a face of the plate; the face set back by the sheet of bone before it. */
const nearer =
  (broken: BreakSurface | null, face: BreakSurface, sheet: number, choose: typeof Math.min): BreakSurface =>
  (a, b) =>
    broken === null ? face(a, b) + sheet : choose(broken(a, b), face(a, b) + sheet);

/** The tube with its edges at the plate rounded off. */
function withRims(tube: Tube, plate: GrowthPlate): Tube {
  const places = tablePlaces(tube.lengthMm);
  const round = (halves: Float64Array): Float64Array =>
    halves.map((half, i) => {
      const beyond = Math.max(0, Math.abs(places[i]! - plate.placeMm) - plate.thicknessMm / 2);
      const short = RIM_MM - Math.min(RIM_MM, beyond);
      return Math.max(0, half - RIM_MM + Math.sqrt(RIM_MM * RIM_MM - short * short));
    });
  const { halfUlnar, halfDorsal } = tube.outer;
  return { ...tube, outer: { halfUlnar: round(halfUlnar), halfDorsal: round(halfDorsal) } };
}
