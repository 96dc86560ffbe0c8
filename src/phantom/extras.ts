import type { Attenuations, RowBand } from './bone-shadow.ts';
import type { Camera } from './camera.ts';
import { cosine, sine } from './exact-maths.ts';
import { addMarkerGrid, LEAD_SUM, type MarkerGrid } from './marker-grid.ts';
import { cast, gutter, PLASTER_SHARE } from './plaster.ts';
import type { RingMesh } from './ring-mesh.ts';
import { roundSolid, starMesh } from './star-solid.ts';
import { addThickness, type ProjectedMesh, projectMesh } from './thickness.ts';
import { AT_REST, type Placing, shifted, type Vector } from './vector.ts';

/** Things on the film besides the hand, in millimetres right of and above the point under the tube. */
export interface PhantomSceneExtras {
  readonly marker: { readonly letter: 'L' | 'R'; readonly right: number; readonly up: number } | null;
  readonly knownObject: {
    readonly shape: 'ball' | 'disc';
    readonly diameterMm: number;
    readonly centre: Vector;
  } | null;
  readonly splint: { readonly size: number } | null;
  readonly cast: { readonly size: number } | null;
  readonly markerGrid: MarkerGrid | null;
}

const LETTER_HEIGHT_MM = 11;
const STROKE_MM = 1.5;

/** Strokes of the letters in units of their height, from the lower left corner. */
const STROKES: Readonly<Record<'L' | 'R', readonly (readonly (readonly [number, number])[])[]>> = {
  L: [
    [
      [0.08, 0.94],
      [0.08, 0.06],
      [0.58, 0.06],
    ],
  ],
  R: [
    [
      [0.08, 0.06],
      [0.08, 0.94],
      [0.4, 0.94],
      [0.55, 0.87],
      [0.6, 0.73],
      [0.55, 0.58],
      [0.4, 0.5],
      [0.08, 0.5],
    ],
    [
      [0.34, 0.5],
      [0.62, 0.06],
    ],
  ],
};

/** Size of the box a marker letter takes up, mm. */
export const MARKER_BOX = { width: 0.7 * LETTER_HEIGHT_MM, height: LETTER_HEIGHT_MM } as const;

/** The camera looking at the table itself: no turn, no shift. */
const tableCamera = (camera: Camera): Camera => ({
  ...camera,
  right: [1, 0, 0],
  up: [0, 1, 0],
  towardsTube: [0, 0, 1],
  shift: [0, 0, 0],
  handedness: 1,
});

/** Adds what lies beside the hand (an object of known size, plaster, a letter, discs of lead) to the sums of a band of rows. */
export function addExtras(
  extras: PhantomSceneExtras,
  camera: Camera,
  attenuations: Attenuations,
  band: RowBand,
): void {
  if (extras.knownObject !== null) {
    const { shape, diameterMm, centre } = extras.knownObject;
    const mesh = shape === 'ball' ? ball(diameterMm / 2) : disc(diameterMm / 2, 2);
    // Steel is opaque at every energy of the table; the tube's harder photons still pass a little.
    addSolid(mesh, shifted(centre), tableCamera(camera), centre[2], 0.6, band);
  }
  if (extras.splint !== null) {
    const plaster = PLASTER_SHARE * attenuations.bone;
    addSolid(gutter(extras.splint.size), AT_REST, camera, 0, plaster, band);
  }
  if (extras.cast !== null) {
    const { outside, inside } = cast(extras.cast.size);
    const plaster = PLASTER_SHARE * attenuations.bone;
    addSolid(outside, AT_REST, camera, 0, plaster, band);
    addSolid(inside, AT_REST, camera, 0, -plaster, band);
  }
  if (extras.markerGrid !== null) addMarkerGrid(extras.markerGrid, camera, band);
  if (extras.marker !== null) addMarker(extras.marker, camera, band);
}

function addSolid(
  mesh: RingMesh,
  placing: Placing,
  camera: Camera,
  depthZero: number,
  perMm: number,
  band: RowBand,
): void {
  const projected: ProjectedMesh = projectMesh(mesh, placing, camera, depthZero);
  const box = {
    ...projected.box,
    top: Math.max(projected.box.top, band.from),
    bottom: Math.min(projected.box.bottom, band.to),
  };
  const width = box.right - box.left;
  if (width <= 0 || box.top >= box.bottom) return;
  const values = new Float32Array(width * (box.bottom - box.top));
  addThickness(projected, camera.handedness, { box, width, values });
  for (let row = box.top; row < box.bottom; row += 1) {
    for (let column = box.left; column < box.right; column += 1) {
      const thickness = Math.max(0, values[(row - box.top) * width + column - box.left]!);
      const at = (row - band.from) * camera.columns + column;
      band.values[at] = Math.min(8, band.values[at]! + perMm * thickness);
    }
  }
}

const ball = (radius: number): RingMesh => starMesh(roundSolid(radius, radius, radius), 0, 'ball', 96);

function disc(radius: number, thickness: number): RingMesh {
  const columns = 96;
  const rings = [
    [0, -0.5],
    [1, -0.5],
    [1, 0.5],
    [0, 0.5],
  ] as const;
  const points = new Float64Array(rings.length * columns * 3);
  rings.forEach(([share, level], i) => {
    for (let j = 0; j < columns; j += 1) {
      const theta = (-2 * Math.PI * j) / columns;
      points.set(
        [radius * share * cosine(theta), radius * share * sine(theta), level * thickness],
        (i * columns + j) * 3,
      );
    }
  });
  return { rows: rings.length, columns, points };
}

function addMarker(marker: NonNullable<PhantomSceneExtras['marker']>, camera: Camera, band: RowBand): void {
  const { pitchMm } = camera;
  const left = camera.centreColumn + marker.right / pitchMm;
  const bottom = camera.centreRow - marker.up / pitchMm;
  const unit = LETTER_HEIGHT_MM / pitchMm;
  const firstColumn = Math.max(0, Math.floor(left));
  const lastColumn = Math.min(camera.columns - 1, Math.ceil(left + 0.75 * unit));
  const firstRow = Math.max(band.from, Math.floor(bottom - 1.05 * unit));
  const lastRow = Math.min(band.to - 1, Math.ceil(bottom + 0.05 * unit));
  const halfStroke = STROKE_MM / 2 / LETTER_HEIGHT_MM;
  for (let row = firstRow; row <= lastRow; row += 1) {
    for (let column = firstColumn; column <= lastColumn; column += 1) {
      const x = (column + 0.5 - left) / unit;
      const y = (bottom - row - 0.5) / unit;
      const inside = (halfStroke - strokeDistance(STROKES[marker.letter], x, y)) * unit + 0.5;
      if (inside <= 0) continue;
      const at = (row - band.from) * camera.columns + column;
      band.values[at] = band.values[at]! + LEAD_SUM * Math.min(1, inside);
    }
  }
}

function strokeDistance(strokes: (typeof STROKES)['L'], x: number, y: number): number {
  let least = 10;
  for (const stroke of strokes) {
    for (let i = 0; i + 1 < stroke.length; i += 1) {
      const [ax, ay] = stroke[i]!;
      const [bx, by] = stroke[i + 1]!;
      const dx = bx - ax;
      const dy = by - ay;
      const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
      const ex = x - ax - t * dx;
      const ey = y - ay - t * dy;
      least = Math.min(least, Math.sqrt(ex * ex + ey * ey));
    }
  }
  return least;
}
