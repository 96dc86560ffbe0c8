import type { TraceRequest } from '../../src/trace/request.ts';
import { throughJpeg } from './through-jpeg.ts';

/**
 * What happens to a film on its way out of a hospital. Nothing of the tracer was set on any of it. Pictures of 8 bits
 * end at 0 and 255, so that the tracer can tell what was cut off.
 */
export const SPOILINGS = {
  none: null,
  /** 8 bits through a narrow window: a tenth of the values at each end are lost. */
  windowed: (request) => shown(request, 0.1, (share) => share),
  /** The same through a curve, as screens and printers have it. */
  curved: (request) => shown(request, 0.01, (share) => share ** 2),
  /** Pairs of pixels within blocks of 8 share one value of 32 greys. */
  blocky: (request) => blocky(shown(request, 0.002, (share) => share)),
  /** A JPEG file of 8 bits, quality 50. */
  jpeg: (request) => {
    const eight = shown(request, 0.002, (share) => share);
    const { picture } = eight;
    return { ...eight, picture: { ...picture, values: throughJpeg(picture, 50) } };
  },
  /** Bone dark, and nothing says so. */
  inverted: (request) => shown(request, 0.002, (share) => 1 - share),
  /** A picture of the screen: 8 bits through a window, at 0.6 of the film's size. */
  screenshot: (request) =>
    smaller(
      shown(request, 0.05, (share) => share ** 1.2),
      0.6,
    ),
} as const satisfies Readonly<Record<string, ((request: TraceRequest) => TraceRequest) | null>>;

export type Spoiling = keyof typeof SPOILINGS;

const held = (share: number): number => Math.max(0, Math.min(1, share));

function ends(values: Float32Array, share: number): readonly [number, number] {
  const sorted = values.slice().sort();
  return [
    sorted[Math.floor(share * (sorted.length - 1))]!,
    sorted[Math.ceil((1 - share) * (sorted.length - 1))]!,
  ];
}

/** The picture in 8 bits, a share of its values lost at either end. */
function shown(request: TraceRequest, lost: number, curve: (share: number) => number): TraceRequest {
  const { picture } = request;
  const [low, high] = ends(picture.values, lost);
  const values = picture.values.map((value) => Math.round(255 * curve(held((value - low) / (high - low)))));
  return { ...request, picture: { ...picture, values, least: 0, greatest: 255 } };
}

function blocky(request: TraceRequest): TraceRequest {
  const { picture } = request;
  const { columns } = picture;
  const values = picture.values.map((_, at) => {
    const column = at % columns;
    const from = at - (column % 2 === 1 && column % 8 !== 0 ? 1 : 0);
    return 8 * Math.round(picture.values[from]! / 8);
  });
  return { ...request, picture: { ...picture, values } };
}

/** Every new pixel is the mean of those of the film that it covers. */
function smaller(request: TraceRequest, size: number): TraceRequest {
  const { picture, scale, taps, brackets } = request;
  const columns = Math.floor(picture.columns * size);
  const rows = Math.floor(picture.rows * size);
  const values = new Float32Array(columns * rows);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      let sum = 0;
      let weight = 0;
      for (let r = Math.floor(row / size); r < (row + 1) / size; r += 1) {
        for (let c = Math.floor(column / size); c < (column + 1) / size; c += 1) {
          const covered =
            (Math.min(r + 1, (row + 1) / size) - Math.max(r, row / size)) *
            (Math.min(c + 1, (column + 1) / size) - Math.max(c, column / size));
          const at = Math.min(r, picture.rows - 1) * picture.columns + Math.min(c, picture.columns - 1);
          sum += covered * picture.values[at]!;
          weight += covered;
        }
      }
      values[row * columns + column] = Math.round(sum / weight);
    }
  }
  const moved = <Point extends { readonly column: number; readonly row: number }>(point: Point): Point => ({
    ...point,
    column: point.column * size,
    row: point.row * size,
  });
  return {
    ...request,
    picture: { ...picture, columns, rows, values },
    scale: { ...scale, perColumn: scale.perColumn / size, perRow: scale.perRow / size },
    taps: {
      base: moved(taps.base),
      proximalEnd: moved(taps.proximalEnd),
      distalEnd: moved(taps.distalEnd),
      headEnd: moved(taps.headEnd),
    },
    brackets: brackets.map((bracket) => ({
      ...bracket,
      one: moved(bracket.one),
      other: moved(bracket.other),
    })),
  };
}
