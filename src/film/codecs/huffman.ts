/** A JPEG entropy-coded segment ended early or held a code that is in no table. */
export class BrokenStream extends Error {}

/** Decoding tables of one Huffman table, ITU-T T.81 annex C and F.2.2.3. */
export class HuffmanTable {
  readonly #greatestCode = new Int32Array(17).fill(-1);
  readonly #valueOffset = new Int32Array(17);
  readonly #values: Uint8Array;

  /**
   * @param counts - BITS: how many codes of each length, 1 to 16.
   * @param values - HUFFVAL: the symbols in order of their codes.
   */
  constructor(counts: Uint8Array, values: Uint8Array) {
    this.#values = values;
    let code = 0;
    let index = 0;
    for (let length = 1; length <= 16; length++) {
      const count = counts[length - 1] ?? 0;
      this.#valueOffset[length] = index - code;
      if (count > 0) this.#greatestCode[length] = code + count - 1;
      code = (code + count) << 1;
      index += count;
    }
  }

  /** Next symbol of the stream (T.81 figure F.16). */
  decode(bits: BitReader): number {
    let code = 0;
    for (let length = 1; length <= 16; length++) {
      code = (code << 1) | bits.bit();
      const greatest = this.#greatestCode[length] as number;
      if (greatest >= 0 && code <= greatest) {
        return this.#values[code + (this.#valueOffset[length] as number)] as number;
      }
    }
    throw new BrokenStream('it holds a code that is in no table');
  }
}

/** Bits of an entropy-coded segment, without the zero bytes stuffed after 0xFF (T.81 F.1.2.3). */
export class BitReader {
  #at: number;
  #current = 0;
  #left = 0;
  readonly #bytes: Uint8Array;

  constructor(bytes: Uint8Array, start: number) {
    this.#bytes = bytes;
    this.#at = start;
  }

  bit(): number {
    if (this.#left === 0) {
      const byte = this.#bytes[this.#at];
      if (byte === undefined) throw new BrokenStream('it stops in the middle of the picture');
      if (byte === 0xff) {
        if (this.#bytes[this.#at + 1] !== 0) throw new BrokenStream('a marker stands in the middle of it');
        this.#at++;
      }
      this.#at++;
      this.#current = byte;
      this.#left = 8;
    }
    this.#left--;
    return (this.#current >> this.#left) & 1;
  }

  /** `count` bits as the signed value of that category: RECEIVE and EXTEND, T.81 F.2.2.1. */
  signed(count: number): number {
    let value = 0;
    for (let i = 0; i < count; i++) value = (value << 1) | this.bit();
    return count > 0 && value < 1 << (count - 1) ? value - (1 << count) + 1 : value;
  }

  /** Drops the rest of the byte and steps over a restart marker (T.81 E.2.4). */
  restart(): void {
    this.#left = 0;
    const marker = this.#bytes[this.#at + 1] ?? 0;
    if (this.#bytes[this.#at] !== 0xff || marker < 0xd0 || marker > 0xd7) {
      throw new BrokenStream('a restart marker is missing');
    }
    this.#at += 2;
  }
}
