import { boxSolid, type StarSolid } from './star-solid.ts';
import { along, type Placing, type Vector } from './vector.ts';

/** A carpal: where its middle lies from the base of the middle metacarpal, and its solid. Mean adult, mm; from memory. */
export interface CarpalNorm {
  readonly name: string;
  readonly placing: Placing;
  readonly solid: StarSolid;
  readonly roundness: 'ball' | 'soft' | 'firm';
}

const upright = (middle: Vector): Placing => along(middle, [middle[0], middle[1] + 1, middle[2]], [0, 0, 1]);
const box = (
  [radial, ulnar]: readonly [number, number],
  [proximal, distal]: readonly [number, number],
  [volar, dorsal]: readonly [number, number],
) => ({ radial, ulnar, proximal, distal, volar, dorsal });

export const CARPALS: readonly CarpalNorm[] = [
  {
    name: 'trapezium',
    roundness: 'firm',
    placing: along([-19.5, -9.2, -7.5], [-23.5, -0.5, -10], [-0.4, 0, 1]),
    solid: boxSolid(
      box([8, 7], [6, 6.2], [7.5, 6.5]),
      [
        [[1, 1, 0], 7.2],
        [[-1, -1, 0], 7.4],
        [[1, -1, 0], 8.6],
        [[0, 1, 1], 8],
      ],
      [
        [[0, 1, 0], 0.13, 0.35],
        [[0.3, -1, 0], 0.1, 0.3],
      ],
    ),
  },
  {
    name: 'trapezoid',
    roundness: 'firm',
    placing: upright([-10.4, -8.4, -1.5]),
    solid: boxSolid(
      box([5.4, 5], [5.6, 5.8], [6.5, 7.5]),
      [
        [[-1, -1, 0], 6.3],
        [[1, -1, 0], 6],
        [[0, 0, -1], 6],
        [[-1, 1, 0], 6.4],
      ],
      [[[0, -1, 0], 0.1, 0.3]],
    ),
  },
  {
    name: 'capitate',
    roundness: 'soft',
    placing: along([0.4, -12.2, -1.4], [0.2, 0, -0.6], [0, 0, 1]),
    solid: boxSolid(
      box([6.8, 6.8], [11.6, 11], [8.4, 7.4]),
      [
        [[1, -1, 0], 9.6],
        [[-1, -1, 0], 9.4],
        [[0, -1, 1], 10.5],
        [[0, -1, -1], 10],
        [[1, 1, 0], 11.6],
      ],
      [
        [[1, -0.3, 0], 0.1, 0.2],
        [[-1, -0.25, 0], 0.12, 0.2],
      ],
    ),
  },
  {
    name: 'hamate',
    roundness: 'firm',
    placing: along([14.2, -11.8, -2.6], [14.8, 0, -3.2], [0.25, 0, 1]),
    solid: boxSolid(
      box([7, 7.6], [10.2, 8.6], [6.6, 7]),
      [
        // The wedge: its proximal end runs to a point beside the capitate.
        [[1, -1.15, 0], 7],
        [[-1, -0.5, 0], 8],
        [[1, 1, 0], 10],
        [[0, -1, 1], 9],
      ],
      [[[0.4, 1, 0], 0.07, 0.25]],
    ),
  },
  {
    name: 'hook of the hamate',
    roundness: 'ball',
    placing: along([13.4, -9.2, -11.6], [13.8, -5.2, -12.4], [0, 0, 1]),
    solid: boxSolid(box([2.2, 2.6], [3.6, 4.2], [4.6, 5]), [[[0, -1, -1], 4]]),
  },
  {
    name: 'scaphoid',
    roundness: 'soft',
    placing: along([-11.6, -21.8, -4.6], [-18.2, -12.6, -9.6], [-0.35, 0.3, 1]),
    solid: boxSolid(
      box([7, 7], [12.8, 11.4], [6.2, 6]),
      [
        [[-1, -1, 0], 10],
        [[1, -1, 0], 11],
        [[1, 1, 0], 9.2],
        [[-1, 1, 0], 9.6],
        [[0, 1, 1], 9.4],
      ],
      [
        [[1, 0.05, 0], 0.16, 0.5],
        [[-1, 0.1, 0.1], 0.09, 0.3],
        [[-0.6, 0.25, 1], 0.12, 0.22],
      ],
    ),
  },
  {
    name: 'lunate',
    roundness: 'soft',
    placing: upright([-0.2, -29.4, -2]),
    solid: boxSolid(
      box([7.6, 7.7], [6.6, 6.4], [8.4, 7.2]),
      [
        [[1, -1, 0], 8.6],
        [[-1, -1, 0], 8.6],
        [[0, -1, 1], 8.2],
        [[0, -1, -1], 8.6],
        [[1, 1, 0], 9],
        [[-1, 1, 0], 8.4],
      ],
      [[[0.1, 1, 0.1], 0.26, 0.4]],
    ),
  },
  {
    name: 'triquetrum',
    roundness: 'firm',
    placing: along([13.6, -25.2, -3], [10.6, -14.6, -3], [0.2, 0, 1]),
    solid: boxSolid(
      box([6.6, 6.6], [6.2, 6.6], [6.2, 6.4]),
      [
        [[1, 1, 0], 8],
        [[1, -1, 0], 7.2],
        [[-1, -1, 0], 8.4],
        [[0, 1, 1], 7.6],
      ],
      [[[-0.3, 1, 0], 0.1, 0.3]],
    ),
  },
  {
    name: 'pisiform',
    roundness: 'ball',
    placing: upright([17, -24, -13]),
    solid: boxSolid(box([5.8, 5.6], [7, 7], [5, 4.8])),
  },
];
