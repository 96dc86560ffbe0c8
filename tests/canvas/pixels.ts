/** Reading back what is on a canvas. */

export interface Rgba {
  readonly red: number;
  readonly green: number;
  readonly blue: number;
  readonly alpha: number;
}

export interface Blob {
  /** Weighted middle, in pixels of the canvas; the middle of the first pixel is at (0.5, 0.5). */
  readonly x: number;
  readonly y: number;
  /** From the first to the last pixel that has a weight. */
  readonly width: number;
  readonly height: number;
}

/** The middle of all pixels with a weight above zero; null if there are none. */
export function middleOf(canvas: HTMLCanvasElement, weightOf: (pixel: Rgba) => number): Blob | null {
  const { width, height } = canvas;
  const { data } = contextOf(canvas).getImageData(0, 0, width, height);
  let sum = 0;
  let sumX = 0;
  let sumY = 0;
  let [left, right, top, bottom] = [width, 0, height, 0];
  for (let index = 0; index < width * height; index++) {
    const weight = weightOf({
      red: data[4 * index]!,
      green: data[4 * index + 1]!,
      blue: data[4 * index + 2]!,
      alpha: data[4 * index + 3]!,
    });
    if (weight <= 0) continue;
    const x = index % width;
    const y = Math.floor(index / width);
    sum += weight;
    sumX += weight * (x + 0.5);
    sumY += weight * (y + 0.5);
    left = Math.min(left, x);
    right = Math.max(right, x + 1);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y + 1);
  }
  if (sum === 0) return null;
  return { x: sumX / sum, y: sumY / sum, width: right - left, height: bottom - top };
}

/** Grey values of a canvas, row by row. */
export function greysOf(canvas: HTMLCanvasElement): Uint8Array {
  const { data } = contextOf(canvas).getImageData(0, 0, canvas.width, canvas.height);
  return Uint8Array.from({ length: data.length / 4 }, (_, index) => data[4 * index]!);
}

/** The canvas that cornerstone draws the film on. */
export const filmCanvas = (host: HTMLElement): HTMLCanvasElement =>
  host.querySelector<HTMLCanvasElement>('.cornerstone-canvas')!;

/** The two canvases of the marks: what rests, and what moves with the pointer. */
export function markCanvases(host: HTMLElement): {
  readonly resting: HTMLCanvasElement;
  readonly active: HTMLCanvasElement;
} {
  const [resting, active] = host.querySelectorAll<HTMLCanvasElement>('.konvajs-content canvas');
  return { resting: resting!, active: active! };
}

const contextOf = (canvas: HTMLCanvasElement) => canvas.getContext('2d', { desynchronized: true })!;
