import { filmPoint } from '../geometry/units.ts';
import { attenuationPerMm } from './attenuation.ts';
import type { RowBand } from './bone-shadow.ts';
import type { Camera } from './camera.ts';
import { exponential, logarithm } from './exact-maths.ts';
import type { MarkerGridTruth } from './truth.ts';

/** Lead discs on the detector in a square grid, one under the tube. */
export interface MarkerGrid {
  readonly pitchMm: number;
  readonly diameterMm: number;
}

/** What 1.5 mm of lead add to a ray's sum: at 60 keV, since what passes lead at all is hard; 7 is black enough. */
export const LEAD_SUM = Math.min(7, attenuationPerMm('lead', 60) * 1.5);

/** Steps from the disc under the tube to the last that lies wholly on the film, where it lies in the middle. */
const stepsTo = ({ pitchMm, diameterMm }: MarkerGrid, filmMm: number): number =>
  Math.max(0, Math.floor((filmMm / 2 - diameterMm / 2) / pitchMm));

/** Where the discs of a grid lie on the film: it lies on the detector, so nothing magnifies it. */
export function gridTruth(grid: MarkerGrid, camera: Camera): MarkerGridTruth {
  return {
    pitchMm: grid.pitchMm,
    diameterMm: grid.diameterMm,
    plane: 'detector',
    pitchPixels: grid.pitchMm / camera.pitchMm,
    centre: filmPoint(camera.centreColumn, camera.centreRow),
    columns: 2 * stepsTo(grid, camera.columns * camera.pitchMm) + 1,
    rows: 2 * stepsTo(grid, camera.rows * camera.pitchMm) + 1,
  };
}

/** Adds the discs to a band; a pixel that a disc covers in part lets that much less through. */
export function addMarkerGrid(grid: MarkerGrid, camera: Camera, band: RowBand): void {
  const { columns, rows, centre, pitchPixels } = gridTruth(grid, camera);
  const radius = grid.diameterMm / 2 / camera.pitchMm;
  const stopped = 1 - exponential(-LEAD_SUM);
  for (let j = -(rows - 1) / 2; j <= (rows - 1) / 2; j += 1) {
    const y = centre.row + j * pitchPixels;
    const top = Math.max(band.from, Math.floor(y - radius - 1));
    const bottom = Math.min(band.to, Math.ceil(y + radius + 1));
    if (top >= bottom) continue;
    for (let i = -(columns - 1) / 2; i <= (columns - 1) / 2; i += 1) {
      const x = centre.column + i * pitchPixels;
      const right = Math.min(camera.columns, Math.ceil(x + radius + 1));
      for (let row = top; row < bottom; row += 1) {
        for (let column = Math.max(0, Math.floor(x - radius - 1)); column < right; column += 1) {
          const [dx, dy] = [column + 0.5 - x, row + 0.5 - y];
          const inside = radius - Math.sqrt(dx * dx + dy * dy) + 0.5;
          if (inside <= 0) continue;
          const at = (row - band.from) * camera.columns + column;
          band.values[at] = band.values[at]! - logarithm(1 - stopped * Math.min(1, inside));
        }
      }
    }
  }
}
