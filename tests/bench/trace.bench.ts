import { trace } from '../../src/trace/trace.ts';
import { crowdedRequest, loneRequest, neckRequest } from '../trace/timed-requests.ts';
import { race } from './harness/lines.ts';

/**
 * One trace, interval and all, as a ratio to the mean of the nine neighbours of every pixel of the same piece
 * of film: the least that any look at the picture costs. 50 mm × 80 mm at 0.125 mm is 400 × 640 pixels.
 */
function meanOfNine(): Float32Array {
  const { columns, rows, values } = loneRequest.picture;
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
    'trace of a shaft that stands alone': () => trace(loneRequest),
    'trace of a shaft among its neighbours': () => trace(crowdedRequest),
    'trace of a neck': () => trace(neckRequest),
  },
  rounds: 25,
});
