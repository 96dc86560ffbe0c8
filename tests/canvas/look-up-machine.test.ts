import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compiledMachine, scriptMachine, TABLE_BYTES } from '../../src/canvas/look-up-machine.ts';

const POSSIBLE_VALUES = 0x10000;
const sixteenBits = fc.integer({ min: 0, max: POSSIBLE_VALUES - 1 });
const word = fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 });

describe.each([
  { name: 'as WebAssembly', machineOf: compiledMachine },
  { name: 'in script', machineOf: scriptMachine },
])('the look-up $name', ({ machineOf }) => {
  const machine = machineOf();
  const values = (count: number) => new Uint16Array(machine.buffer, TABLE_BYTES, count);

  test('puts the word of each value in its place, and touches nothing else', () => {
    fc.assert(
      fc.property(
        fc.array(sixteenBits, { minLength: 1, maxLength: 200 }),
        fc.array(fc.tuple(sixteenBits, word), { maxLength: 50 }),
        (stored, entries) => {
          // Room for one value more, and for one word before and one behind.
          const even = 2 * Math.ceil(stored.length / 2);
          const at = TABLE_BYTES + 2 * even;
          machine.grow(at + 4 * (even + 2));
          const table = new Int32Array(machine.buffer, 0, POSSIBLE_VALUES);
          const of = new Map(entries);
          for (const [value, its] of of) table[value] = its;
          for (const value of stored) if (!of.has(value)) table[value] = 7;
          values(stored.length).set(stored);
          const out = new Int32Array(machine.buffer, at, even + 2).fill(99);
          machine.lookUp(TABLE_BYTES, TABLE_BYTES + 2 * stored.length, at + 4);
          expect([...out.subarray(1, stored.length + 1)]).toEqual(stored.map((value) => of.get(value) ?? 7));
          expect([out[0], out[even + 1]]).toEqual([99, 99]);
        },
      ),
    );
  });

  test('keeps its table when the memory is made larger', () => {
    new Int32Array(machine.buffer, 0, POSSIBLE_VALUES).fill(5);
    const before = machine.buffer.byteLength;
    machine.grow(before + 1);
    expect(machine.buffer.byteLength).toBeGreaterThan(before);
    expect(new Int32Array(machine.buffer, 0, POSSIBLE_VALUES).every((its) => its === 5)).toBe(true);
  });
});
