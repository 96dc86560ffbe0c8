/**
 * The look-up of pixels in a table, the one loop that runs a million times a frame. As WebAssembly it takes less than
 * half the time of the same loop in script, from the first frames on: nothing is checked at a pixel, and no engine has
 * first to find out that the loop is worth compiling.
 */

/** Memory with a table of 64k words at its beginning, and a loop that works in it. */
export interface LookUpMachine {
  /** Another one after `grow`. */
  readonly buffer: ArrayBuffer;
  /** Makes the memory at least this large, in bytes; what it holds stays. */
  grow(bytes: number): void;
  /**
   * For each of the 16-bit values from byte `from` to byte `until`, the 32-bit word of the table goes to byte `to` and
   * what follows it. An even number of values is looked up: with an odd one, the value behind them too.
   *
   * @param from - Divisible by 2, and less than `until`; `to` is divisible by 4.
   */
  lookUp(from: number, until: number, to: number): void;
}

export const TABLE_BYTES = 4 * 0x10000;
/** WebAssembly core specification, 4.2.8. */
const PAGE_BYTES = 0x10000;

/** Of the WebAssembly core specification, 5.4: the instructions used, by their names there. */
const [LOOP, END, BR_IF] = [0x03, 0x0b, 0x0d];
const [LOCAL_GET, LOCAL_SET] = [0x20, 0x21];
const [I32_LOAD, I32_LOAD16_U, I32_STORE] = [0x28, 0x2f, 0x36];
const [I32_CONST, I32_LT_U, I32_ADD, I32_SHL] = [0x41, 0x49, 0x6a, 0x74];
/** Types, 5.3. */
const [I32, FUNCTION, NO_RESULT] = [0x7f, 0x60, 0x40];

/** The three parameters, as local variables of the function. */
const [FROM, UNTIL, TO] = [0, 1, 2];

/** Leaves on the stack where the word goes, then the word; and stores it. `nth` is 0 or 1; alignments are exponents. */
const lookUpOne = (nth: number): readonly number[] => [
  ...[LOCAL_GET, TO],
  ...[LOCAL_GET, FROM],
  ...[I32_LOAD16_U, 1, 2 * nth],
  ...[I32_CONST, 2, I32_SHL],
  ...[I32_LOAD, 2, 0],
  ...[I32_STORE, 2, 4 * nth],
];

const forward = (local: number, bytes: number): readonly number[] => [
  ...[LOCAL_GET, local, I32_CONST, bytes, I32_ADD, LOCAL_SET, local],
];

/** Two values at a time: one by one takes a sixth longer. */
const BODY = [
  ...[LOOP, NO_RESULT],
  ...[...lookUpOne(0), ...lookUpOne(1)],
  ...[...forward(TO, 8), ...forward(FROM, 4)],
  ...[LOCAL_GET, FROM, LOCAL_GET, UNTIL, I32_LT_U, BR_IF, 0],
  ...[END, END],
];

/** A name, or a section's contents, with its length before it; below 128, a length is one byte (5.2.2). */
const counted = (bytes: readonly number[]): readonly number[] => [bytes.length, ...bytes];
const named = (name: string): readonly number[] => counted([...new TextEncoder().encode(name)]);
const section = (id: number, contents: readonly number[]): readonly number[] => [id, ...counted(contents)];

/** The module, 5.5: one function and one memory, both exported. */
const MODULE = Uint8Array.from([
  ...[0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
  ...section(1, [1, FUNCTION, ...counted([I32, I32, I32]), 0]),
  ...section(3, [1, 0]),
  ...section(5, [1, 0, TABLE_BYTES / PAGE_BYTES]),
  ...section(7, [2, ...named('memory'), 2, 0, ...named('lookUp'), 0, 0]),
  // The 0 before the body: no local variables but the parameters.
  ...section(10, [1, ...counted([0, ...BODY])]),
]);

export function compiledMachine(): LookUpMachine {
  const { memory, lookUp } = new WebAssembly.Instance(new WebAssembly.Module(MODULE)).exports as {
    readonly memory: WebAssembly.Memory;
    readonly lookUp: LookUpMachine['lookUp'];
  };
  return {
    get buffer() {
      return memory.buffer;
    },
    grow: (bytes) => {
      const missing = bytes - memory.buffer.byteLength;
      if (missing > 0) memory.grow(Math.ceil(missing / PAGE_BYTES));
    },
    lookUp,
  };
}

/** The same in script. */
export function scriptMachine(): LookUpMachine {
  let buffer = new ArrayBuffer(TABLE_BYTES);
  return {
    get buffer() {
      return buffer;
    },
    grow: (bytes) => {
      if (bytes <= buffer.byteLength) return;
      const larger = new ArrayBuffer(bytes);
      new Uint8Array(larger).set(new Uint8Array(buffer));
      buffer = larger;
    },
    lookUp: (from, until, to) => {
      const count = 2 * Math.ceil((until - from) / 4);
      const table = new Int32Array(buffer, 0, TABLE_BYTES / 4);
      const values = new Uint16Array(buffer, from, count);
      const words = new Int32Array(buffer, to, count);
      for (let index = 0; index < count; index++) words[index] = table[values[index]!]!;
    },
  };
}

/** As WebAssembly, or in script where a browser is set to run none, or a server's Content-Security-Policy forbids it. */
export function lookUpMachine(): LookUpMachine {
  try {
    return compiledMachine();
  } catch {
    return scriptMachine();
  }
}
