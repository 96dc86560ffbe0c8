import * as fc from 'fast-check';
import { afterEach, describe, expect, test, vi } from 'vitest';
import {
  compiledMachine,
  lookUpMachine,
  scriptMachine,
  TABLE_BYTES,
} from '../../src/canvas/look-up-machine.ts';

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

describe('where WebAssembly cannot be had', () => {
  afterEach(() => vi.unstubAllGlobals());

  const refusing = {
    Module: class {
      constructor() {
        throw new Error('blocked by Content-Security-Policy');
      }
    },
  };

  test.each([
    ['it is not there', undefined],
    ['a policy refuses it', refusing],
  ])('%s: the look-up is done in script', (_, webAssembly) => {
    vi.stubGlobal('WebAssembly', webAssembly);
    const machine = lookUpMachine();
    machine.grow(TABLE_BYTES + 16);
    new Int32Array(machine.buffer)[9] = 77;
    new Uint16Array(machine.buffer, TABLE_BYTES, 2).set([9, 9]);
    machine.lookUp(TABLE_BYTES, TABLE_BYTES + 4, TABLE_BYTES + 4);
    expect([...new Int32Array(machine.buffer, TABLE_BYTES + 4, 2)]).toEqual([77, 77]);
  });
});
