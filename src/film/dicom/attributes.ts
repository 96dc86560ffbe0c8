import type { DataSet, Element } from 'dicom-parser';
import { decodeText } from './character-set.ts';
import { type Keyword, TAGS } from './tags.ts';

/** PS3.5 6.2, VR DS: a fixed or floating point number and nothing else; `5,50` is not one. */
const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/** PS3.5 6.2: text values are padded with a space, UIDs and some wrong texts with a NUL. */
const unpadded = (text: string) => text.replace(/^ +|[ \0]+$/g, '');

/**
 * The attributes of a data set or of an item of a sequence, read by keyword and typed by what is asked for.
 * An attribute that is absent or empty gives an empty array or null; a number that is not one gives NaN.
 */
export class Attributes {
  readonly #dataSet: DataSet;
  readonly #characterSets: readonly string[];

  constructor(dataSet: DataSet, characterSets?: readonly string[]) {
    this.#dataSet = dataSet;
    this.#characterSets = characterSets ?? this.strings('SpecificCharacterSet');
  }

  element(keyword: Keyword): Element | null {
    return this.#dataSet.elements[TAGS[keyword]] ?? null;
  }

  has(keyword: Keyword): boolean {
    const element = this.element(keyword);
    return element !== null && element.length !== 0;
  }

  bytes(keyword: Keyword): Uint8Array {
    const element = this.element(keyword);
    if (element === null) return new Uint8Array(0);
    const all = this.#dataSet.byteArray as Uint8Array;
    return all.subarray(element.dataOffset, element.dataOffset + element.length);
  }

  /** Values of an attribute in the default repertoire (CS, UI, DS, IS), without padding. */
  strings(keyword: Keyword): readonly string[] {
    const bytes = this.bytes(keyword);
    if (bytes.length === 0) return [];
    return new TextDecoder('latin1').decode(bytes).split('\\').map(unpadded);
  }

  string(keyword: Keyword): string | null {
    const first = this.strings(keyword)[0];
    return first === undefined || first === '' ? null : first;
  }

  /** Values of a text attribute (LO, SH, ST, LT, PN), decoded by the file's Specific Character Set. */
  texts(keyword: Keyword): readonly string[] {
    const bytes = this.bytes(keyword);
    if (bytes.length === 0) return [];
    return decodeText(bytes, this.#characterSets).split('\\').map(unpadded);
  }

  text(keyword: Keyword): string | null {
    const bytes = this.bytes(keyword);
    const text = unpadded(decodeText(bytes, this.#characterSets));
    return text === '' ? null : text;
  }

  /** Values of a DS or IS attribute; NaN for each that is not a number. */
  numbers(keyword: Keyword): readonly number[] {
    return this.strings(keyword).map((text) => (DECIMAL.test(text) ? Number(text) : Number.NaN));
  }

  number(keyword: Keyword): number | null {
    return this.numbers(keyword)[0] ?? null;
  }

  /** First value of a US attribute. */
  unsigned(keyword: Keyword): number | null {
    return this.#short(keyword, 0, false);
  }

  /** Values of a US or SS attribute: by its VR where the file states one, else by `signed`. */
  shorts(keyword: Keyword, signed: boolean): readonly number[] {
    const element = this.element(keyword);
    if (element === null) return [];
    const bySign = element.vr === 'SS' || (element.vr !== 'US' && signed);
    return Array.from(
      { length: Math.floor(element.length / 2) },
      (_, index) => this.#short(keyword, index, bySign) as number,
    );
  }

  /** The 16-bit words of an OW or US attribute, as unsigned. */
  words(keyword: Keyword): Uint16Array {
    const element = this.element(keyword);
    return Uint16Array.from(
      { length: Math.floor((element?.length ?? 0) / 2) },
      (_, index) => this.#short(keyword, index, false) as number,
    );
  }

  items(keyword: Keyword): readonly Attributes[] {
    const items = this.element(keyword)?.items ?? [];
    return items.flatMap((item) =>
      item.dataSet === undefined ? [] : [new Attributes(item.dataSet, this.#characterSets)],
    );
  }

  #short(keyword: Keyword, index: number, signed: boolean): number | null {
    const tag = TAGS[keyword];
    const element = this.#dataSet.elements[tag];
    if (element === undefined || element.length < 2 * (index + 1)) return null;
    return (signed ? this.#dataSet.int16(tag, index) : this.#dataSet.uint16(tag, index)) ?? null;
  }
}
