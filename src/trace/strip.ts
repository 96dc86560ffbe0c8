import type { PlaneScale } from '../geometry/spacing.ts';
import { type FilmPoint, filmPoint, type PlanePoint, planePoint } from '../geometry/units.ts';
import type { BonePicture } from './picture.ts';

/**
 * A straight frame along a fragment: `along` in mm from the proximal tap towards the distal one, `across` in
 * mm, positive to the right of somebody walking that way as displayed.
 */
export interface Frame {
  readonly origin: PlanePoint;
  readonly directionX: number;
  readonly directionY: number;
  /** Distance of the two taps, mm. */
  readonly lengthMm: number;
}

/** From film to plane millimetres. */
export interface MmScale {
  readonly mmPerColumn: number;
  readonly mmPerRow: number;
}

export const mmScale = (scale: PlaneScale, mmPerUnit: number): MmScale => ({
  mmPerColumn: scale.perColumn * mmPerUnit,
  mmPerRow: scale.perRow * mmPerUnit,
});

export const toMm = ({ column, row }: FilmPoint, scale: MmScale): PlanePoint =>
  planePoint(column * scale.mmPerColumn, row * scale.mmPerRow);

export const fromMm = ({ x, y }: PlanePoint, scale: MmScale): FilmPoint =>
  filmPoint(x / scale.mmPerColumn, y / scale.mmPerRow);

export function frameBetween(from: PlanePoint, to: PlanePoint): Frame {
  const lengthMm = Math.hypot(to.x - from.x, to.y - from.y);
  return {
    origin: from,
    directionX: (to.x - from.x) / lengthMm,
    directionY: (to.y - from.y) / lengthMm,
    lengthMm,
  };
}

export const inFrame = (frame: Frame, point: PlanePoint): { along: number; across: number } => {
  const dx = point.x - frame.origin.x;
  const dy = point.y - frame.origin.y;
  return {
    along: dx * frame.directionX + dy * frame.directionY,
    across: dy * frame.directionX - dx * frame.directionY,
  };
};

export const outOfFrame = (frame: Frame, along: number, across: number): PlanePoint =>
  planePoint(
    frame.origin.x + along * frame.directionX - across * frame.directionY,
    frame.origin.y + along * frame.directionY + across * frame.directionX,
  );

/** Distance between rows, along the fragment, and between columns, across it, mm. */
export const ROW_MM = 0.5;
export const COLUMN_MM = 0.125;
/** Columns reach this far to either side of the tapped line, mm. */
export const HALF_WIDTH_MM = 12;
export const COLUMNS = 2 * Math.round(HALF_WIDTH_MM / COLUMN_MM) + 1;
const MIDDLE = (COLUMNS - 1) / 2;

/** The picture resampled along a frame, and its slope across. */
export interface Strip {
  readonly frame: Frame;
  readonly rows: number;
  /** Of the first row. */
  readonly firstMm: number;
  /** Smoothed values, row by row; the left-most column is at −`HALF_WIDTH_MM`. */
  readonly values: Float32Array;
  /** Slope across, in units of the strip's usual slope: about 1 on a plain cortex. Positive: brighter to the right. */
  readonly slope: Float32Array;
  /** Share of the samples on the film that lie at either end of its grey scale. */
  readonly cutOff: number;
  /**
   * How far the slopes of rows 6 to 10 mm apart agree, as a correlation: near 1 where outlines run along the strip,
   * near 0 in noise.
   */
  readonly coherence: number;
  /** Usual slope in the picture's own units per mm; 0 on a blank piece. */
  readonly usualSlope: number;
}

export const columnAt = (acrossMm: number): number => acrossMm / COLUMN_MM + MIDDLE;
export const acrossAt = (column: number): number => (column - MIDDLE) * COLUMN_MM;
export const alongAt = (strip: Strip, row: number): number => strip.firstMm + row * ROW_MM;
export const rowAt = (strip: Strip, alongMm: number): number => (alongMm - strip.firstMm) / ROW_MM;

/** One standard deviation of the smoothing along a shaft, and along a neck that is a few millimetres long, mm. */
export const SHAFT_SMOOTHING_MM = 1.2;
export const NECK_SMOOTHING_MM = 0.6;
/** One standard deviation of the smoothing across before the slope is taken, mm. */
const ACROSS_SIGMA_MM = 0.2;

/** Bilinear sample; NaN off the picture. */
function sample(picture: BonePicture, column: number, row: number): number {
  const c = column - picture.firstColumn - 0.5;
  const r = row - picture.firstRow - 0.5;
  const c0 = Math.floor(c);
  const r0 = Math.floor(r);
  if (c0 < 0 || r0 < 0 || c0 + 1 >= picture.columns || r0 + 1 >= picture.rows) return Number.NaN;
  const at = r0 * picture.columns + c0;
  const { values } = picture;
  const fc = c - c0;
  const fr = r - r0;
  const upper = values[at]! + fc * (values[at + 1]! - values[at]!);
  const below = at + picture.columns;
  const lower = values[below]! + fc * (values[below + 1]! - values[below]!);
  return upper + fr * (lower - upper);
}

/**
 * Cuts a strip out of a picture.
 *
 * @param fromMm - First place along the frame, and `toMmAlong` the last, mm.
 * @param smoothingMm - One standard deviation of the smoothing along the frame.
 */
export function cutStrip(
  picture: BonePicture,
  scale: MmScale,
  frame: Frame,
  fromMm: number,
  toMmAlong: number,
  smoothingMm: number,
): Strip {
  const rows = Math.max(1, Math.round((toMmAlong - fromMm) / ROW_MM) + 1);
  const raw = new Float32Array(rows * COLUMNS);
  let found = 0;
  let cut = 0;
  const stepColumn = (-frame.directionY * COLUMN_MM) / scale.mmPerColumn;
  const stepRow = (frame.directionX * COLUMN_MM) / scale.mmPerRow;
  const margin = (picture.greatest - picture.least) * 0.004;
  const low = picture.least + margin;
  const high = picture.greatest - margin;
  for (let row = 0; row < rows; row += 1) {
    const start = fromMm + row * ROW_MM;
    const first = fromMmPoint(frame, start, -HALF_WIDTH_MM, scale);
    let last = Number.NaN;
    for (let column = 0; column < COLUMNS; column += 1) {
      let value = sample(picture, first.column + column * stepColumn, first.row + column * stepRow);
      if (Number.isNaN(value)) value = last;
      else {
        found += 1;
        if (value <= low || value >= high) cut += 1;
        last = value;
      }
      raw[row * COLUMNS + column] = value;
    }
    fillStart(raw, row * COLUMNS);
  }
  const smooth = alongSmoothed(raw, rows, smoothingMm);
  const pixelMm = Math.max(scale.mmPerColumn, scale.mmPerRow);
  const { slope, usualSlope } = slopeAcross(smooth, rows, Math.max(ACROSS_SIGMA_MM, 0.8 * pixelMm));
  return {
    frame,
    rows,
    firstMm: fromMm,
    values: smooth,
    slope,
    cutOff: found === 0 ? 0 : cut / found,
    coherence: coherenceOf(slope, rows),
    usualSlope,
  };
}

function fromMmPoint(frame: Frame, along: number, across: number, scale: MmScale): FilmPoint {
  return fromMm(outOfFrame(frame, along, across), scale);
}

/** Values before the first sample on the film are those of the first one; a row with none is 0. */
function fillStart(raw: Float32Array, start: number): void {
  let column = 0;
  while (column < COLUMNS && Number.isNaN(raw[start + column]!)) column += 1;
  const value = column < COLUMNS ? raw[start + column]! : 0;
  for (let c = 0; c < column; c += 1) raw[start + c] = value;
}

function weightsOf(sigma: number, step: number): Float64Array {
  const reach = Math.ceil((2.6 * sigma) / step);
  const weights = Float64Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-(((i - reach) * step) ** 2) / (2 * sigma * sigma)),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

/** Rows these far apart share next to nothing of the smoothing along. */
const ROWS_APART = [12, 16, 20] as const;
/** An outline that leans moves aside by up to this share of a column from row to row. */
const MOST_LEAN = 0.5;
const LEAN_STEP = 0.1;

function coherenceOf(slope: Float32Array, rows: number): number {
  let best = 0;
  for (let lean = -MOST_LEAN; lean <= MOST_LEAN + 1e-9; lean += LEAN_STEP) {
    let products = 0;
    let squares = 0;
    for (const apart of ROWS_APART) {
      const shift = Math.round(lean * apart);
      const first = Math.max(0, -shift);
      const last = Math.min(COLUMNS, COLUMNS - shift);
      for (let row = 0; row + apart < rows; row += 1) {
        const here = row * COLUMNS;
        const there = (row + apart) * COLUMNS + shift;
        for (let c = first; c < last; c += 1) {
          const p = slope[here + c]!;
          const q = slope[there + c]!;
          products += p * q;
          squares += (p * p + q * q) / 2;
        }
      }
    }
    if (squares > 0) best = Math.max(best, products / squares);
  }
  return best;
}

function alongSmoothed(raw: Float32Array, rows: number, sigmaMm: number): Float32Array {
  const weights = weightsOf(sigmaMm, ROW_MM);
  const reach = (weights.length - 1) / 2;
  const smooth = new Float32Array(raw.length);
  for (let row = 0; row < rows; row += 1) {
    const target = row * COLUMNS;
    for (let k = -reach; k <= reach; k += 1) {
      const source = Math.max(0, Math.min(rows - 1, row + k)) * COLUMNS;
      const weight = weights[k + reach]!;
      for (let c = 0; c < COLUMNS; c += 1) smooth[target + c]! += weight * raw[source + c]!;
    }
  }
  return smooth;
}

function slopeAcross(
  values: Float32Array,
  rows: number,
  sigmaMm: number,
): { slope: Float32Array; usualSlope: number } {
  const gauss = weightsOf(sigmaMm, COLUMN_MM);
  const reach = (gauss.length - 1) / 2;
  const weights = gauss.map((weight, i) => (weight * (i - reach) * COLUMN_MM) / (sigmaMm * sigmaMm));
  const slope = new Float32Array(values.length);
  const padded = new Float32Array(COLUMNS + 2 * reach);
  const rowSquares = new Float64Array(rows);
  let squares = 0;
  for (let row = 0; row < rows; row += 1) {
    const start = row * COLUMNS;
    padded.set(values.subarray(start, start + COLUMNS), reach);
    padded.fill(values[start]!, 0, reach);
    padded.fill(values[start + COLUMNS - 1]!, reach + COLUMNS);
    let sum = 0;
    for (let c = 0; c < COLUMNS; c += 1) {
      let g = 0;
      for (let k = 1; k <= reach; k += 1) {
        g += weights[reach + k]! * (padded[c + reach + k]! - padded[c + reach - k]!);
      }
      slope[start + c] = g;
      sum += g * g;
    }
    rowSquares[row] = sum / COLUMNS;
    squares += sum / COLUMNS;
  }
  const usual = squares / rows;
  if (usual > 0) {
    for (let row = 0; row < rows; row += 1) {
      const factor = 1 / (2 * Math.sqrt(0.5 * usual + 0.5 * rowSquares[row]!));
      const start = row * COLUMNS;
      for (let c = start; c < start + COLUMNS; c += 1) slope[c]! *= factor;
    }
  }
  return { slope, usualSlope: Math.sqrt(usual) };
}
