/** A JPEG entropy-coded segment ended early or held a code that is in no table. */
export class BrokenStream extends Error {}

/** Codes up to this length are looked up at once; longer ones are rare. */
const QUICK_BITS = 12;

/** Decoding tables of one Huffman table, ITU-T T.81 annex C and F.2.2.3. */
export class HuffmanTable {
  /** By the next `QUICK_BITS` bits: length of the code above its symbol; 0 where the code is longer. */
  readonly quick = new Uint16Array(1 << QUICK_BITS);
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
      for (let i = 0; i < count && length <= QUICK_BITS; i++) {
        const unused = QUICK_BITS - length;
        const entry = (length << 8) | (values[index + i] ?? 0);
        this.quick.fill(entry, (code + i) << unused, (code + i + 1) << unused);
      }
      code = (code + count) << 1;
      index += count;
    }
  }

  /** Length above symbol, as in `quick`, of the code that 16 bits begin with; 0 where there is none (figure F.16). */
  longEntry(bits16: number): number {
    for (let length = 1; length <= 16; length++) {
      const code = bits16 >> (16 - length);
      const greatest = this.#greatestCode[length] as number;
      if (greatest >= 0 && code <= greatest) {
        return (length << 8) | (this.#values[code + (this.#valueOffset[length] as number)] as number);
      }
    }
    return 0;
  }
}

/** Bits of an entropy-coded segment, without the zero bytes stuffed after 0xFF (T.81 F.1.2.3). */
export class BitReader {
  #at: number;
  /** The last `#left` bits of it are still to be read. */
  #current = 0;
  #left = 0;
  /** So many of the bits left stand for bytes that are not there: behind a marker, or behind the end. */
  #imagined = 0;
  readonly #bytes: Uint8Array;

  constructor(bytes: Uint8Array, start: number) {
    this.#bytes = bytes;
    this.#at = start;
  }

  /** At least 25 bits are left afterwards. */
  #fill(): void {
    while (this.#left <= 24) {
      let byte = this.#bytes[this.#at] ?? 0xff;
      if (byte !== 0xff) this.#at += 1;
      else if (this.#bytes[this.#at + 1] === 0) this.#at += 2;
      else {
        byte = 0;
        this.#imagined += 8;
      }
      this.#current = (this.#current << 8) | byte;
      this.#left += 8;
    }
  }

  #drop(count: number): void {
    this.#left -= count;
    if (this.#left < this.#imagined) {
      throw new BrokenStream(
        this.#at >= this.#bytes.length
          ? 'it stops in the middle of the picture'
          : 'a marker stands in the middle of it',
      );
    }
  }

  /** Next symbol of the stream. */
  symbol(table: HuffmanTable): number {
    if (this.#left < 16) this.#fill();
    const next = (this.#current >>> (this.#left - 16)) & 0xffff;
    const entry = table.quick[next >> (16 - QUICK_BITS)] || table.longEntry(next);
    if (entry === 0) throw new BrokenStream('it holds a code that is in no table');
    this.#drop(entry >> 8);
    return entry & 255;
  }

  /** `count` bits, up to 16, as the signed value of that category: RECEIVE and EXTEND, T.81 F.2.2.1. */
  signed(count: number): number {
    if (count === 0) return 0;
    if (this.#left < count) this.#fill();
    const value = (this.#current >>> (this.#left - count)) & ((1 << count) - 1);
    this.#drop(count);
    return value < 1 << (count - 1) ? value - (1 << count) + 1 : value;
  }

  /** A category and its bits: the difference of a lossless process. Category 16 is 32768 without bits, T.81 table H.2. */
  difference(table: HuffmanTable): number {
    if (this.#left < 16) this.#fill();
    const next = (this.#current >>> (this.#left - 16)) & 0xffff;
    const entry = table.quick[next >> (16 - QUICK_BITS)] as number;
    const category = entry & 255;
    const length = (entry >> 8) + category;
    if (entry === 0 || length > 16) return this.#longDifference(table);
    this.#drop(length);
    if (category === 0) return 0;
    const value = (next >> (16 - length)) & ((1 << category) - 1);
    return value < 1 << (category - 1) ? value - (1 << category) + 1 : value;
  }

  #longDifference(table: HuffmanTable): number {
    const category = this.symbol(table);
    if (category < 16) return this.signed(category);
    if (category > 16) throw new BrokenStream('a difference is out of range');
    return 32_768;
  }

  /** Drops the rest of the byte and steps over a restart marker (T.81 E.2.4). */
  restart(): void {
    const marker = this.#bytes[this.#at + 1] ?? 0;
    const rest = this.#left - this.#imagined;
    if (rest >= 8 || this.#bytes[this.#at] !== 0xff || marker < 0xd0 || marker > 0xd7) {
      throw new BrokenStream('a restart marker is missing');
    }
    this.#left = 0;
    this.#imagined = 0;
    this.#at += 2;
  }

  /** Where the next marker stands, once all that was coded before it has been read. */
  get end(): number {
    return this.#at;
  }
}
