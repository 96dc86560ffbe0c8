import { trace } from '../../src/trace/trace.ts';
import { bentBone, drawn, requestFor, tubesOf } from '../trace/drawn-film.ts';
import { race } from './harness/lines.ts';

/**
 * One trace, interval and all, as a ratio to the mean of the nine neighbours of every pixel of the same piece
 * of film: the least that any look at the picture costs. 50 mm × 80 mm at 0.125 mm is 400 × 640 pixels.
 */
const scale = { unit: 'mm', perColumn: 0.125, perRow: 0.125 } as const;
const film = { widthMm: 50, heightMm: 80, scale, noise: 10, seed: 3 } as const;

const bone = bentBone(24);
const plain = requestFor(bone, drawn({ ...film, tubes: tubesOf(bone) }), scale, 1);
const beside = [31, 36].flatMap((x) => tubesOf(bentBone(12, x)));
const crowded = {
  ...requestFor(bone, drawn({ ...film, tubes: [...tubesOf(bone), ...beside] }), scale, 1),
  view: 'lateral',
} as const;
const neck = {
  ...requestFor(
    bone,
    drawn({ ...film, tubes: tubesOf(bone), balls: [{ at: bone.head, radiusMm: 6.5 }] }),
    scale,
    1,
  ),
  site: 'neck',
} as const;

function meanOfNine(): Float32Array {
  const { columns, rows, values } = plain.picture;
  const result = new Float32Array(values.length);
  for (let row = 1; row + 1 < rows; row += 1) {
    for (let column = 1; column + 1 < columns; column += 1) {
      let sum = 0;
      for (let r = -1; r <= 1; r += 1) {
        const at = (row + r) * columns + column;
        sum += values[at - 1]! + values[at]! + values[at + 1]!;
      }
      result[row * columns + column] = sum / 9;
    }
  }
  return result;
}

await race({
  against: 'the mean of nine of every pixel, 400 × 640',
  baseline: meanOfNine,
  runs: {
    'trace of a shaft that stands alone': () => trace(plain),
    'trace of a shaft among its neighbours': () => trace(crowded),
    'trace of a neck': () => trace(neck),
  },
  rounds: 25,
});
