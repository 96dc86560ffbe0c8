/** A JPEG entropy-coded segment ended early or held a code that is in no table. */
export class BrokenStream extends Error {}

/** Codes up to this length are looked up at once; longer ones are rare. */
const QUICK_BITS = 12;

/** EXTEND, T.81 figure F.12: the bits of a category as a signed value. */
const extended = (value: number, category: number): number =>
  category > 0 && value < 1 << (category - 1) ? value - (1 << category) + 1 : value;

/** Decoding tables of one Huffman table, ITU-T T.81 annex C and F.2.2.3. */
export class HuffmanTable {
  /** By the next `QUICK_BITS` bits: length of the code above its symbol; 0 where the code is longer. */
  readonly quick = new Uint16Array(1 << QUICK_BITS);
  #differences: Int32Array | null = null;
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

  /**
   * By the next `QUICK_BITS` bits: the difference that a category and its bits give, above the length of both; 0 where
   * they are longer. For a table of categories alone.
   */
  get differences(): Int32Array {
    this.#differences ??= Int32Array.from(this.quick, (entry, bits) => {
      const category = entry & 255;
      const length = (entry >> 8) + category;
      if (entry === 0 || length > QUICK_BITS) return 0;
      const value = (bits >> (QUICK_BITS - length)) & ((1 << category) - 1);
      return (extended(value, category) << 8) | length;
    });
    return this.#differences;
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

  /** `count` bits, up to 16, as the signed value of that category: RECEIVE of T.81 F.2.2.1, then EXTEND. */
  signed(count: number): number {
    if (count === 0) return 0;
    if (this.#left < count) this.#fill();
    const value = (this.#current >>> (this.#left - count)) & ((1 << count) - 1);
    this.#drop(count);
    return extended(value, count);
  }

  /** A category and its bits: the difference of a lossless process. Category 16 is 32768 without bits, T.81 table H.2. */
  difference(table: HuffmanTable): number {
    const category = this.symbol(table);
    if (category < 16) return this.signed(category);
    if (category > 16) throw new BrokenStream('a difference is out of range');
    return 32_768;
  }

  /**
   * A row of values that each differ from the one on the left, modulo 65,536: what most lossless streams are. As
   * `difference`, with all that changes kept at hand.
   *
   * @param step - From one value of the row to the next.
   */
  runningSums(
    table: HuffmanTable,
    row: Uint16Array,
    { from, step, first }: { readonly from: number; readonly step: number; readonly first: number },
  ): void {
    const { differences } = table;
    let value = first;
    let current = this.#current;
    let left = this.#left;
    for (let at = from; at < row.length; at += step) {
      if (left < QUICK_BITS) {
        this.#left = left;
        this.#fill();
        current = this.#current;
        left = this.#left;
      }
      const entry = differences[(current >>> (left - QUICK_BITS)) & ((1 << QUICK_BITS) - 1)] as number;
      if (entry !== 0) {
        left -= entry & 255;
        value = (value + (entry >> 8)) & 0xffff;
      } else {
        this.#left = left;
        value = (value + this.difference(table)) & 0xffff;
        current = this.#current;
        left = this.#left;
      }
      row[at] = value;
    }
    this.#left = left;
    this.#drop(0);
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
