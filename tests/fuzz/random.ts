/** A whole number from 0 up to, not including, `below`. */
export type Draw = (below: number) => number;

/** A generator with a seed (mulberry32, Tommy Ettinger 2017), so that every file can be made again by its number. */
export function drawFrom(seed: number, number: number): Draw {
  let state = (Math.imul(seed, 0x9e3779b1) ^ Math.imul(number + 1, 0x85ebca6b)) >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) % below;
  };
}

export const oneOf = <Value>(draw: Draw, values: readonly Value[]): Value => values[draw(values.length)]!;
