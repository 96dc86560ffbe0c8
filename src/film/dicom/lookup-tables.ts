import type { LookupTable } from '../film.ts';
import type { Attributes } from './attributes.ts';
import type { Keyword } from './tags.ts';

/** Entries of a table: 16-bit words, or bytes where the data has only one for each entry. */
function readEntries(attributes: Attributes, keyword: Keyword, count: number): Uint16Array | null {
  const element = attributes.element(keyword);
  if (element === null) return null;
  if (element.length >= 2 * count) return attributes.words(keyword).subarray(0, count);
  return element.length >= count ? Uint16Array.from(attributes.bytes(keyword).subarray(0, count)) : null;
}

/**
 * A lookup table from its descriptor `entries \ first mapped \ bits` and data (PS3.3 C.11.1.1.1 and
 * C.11.2.1.1; C.7.6.3.1.5 for palettes). 0 entries means 65,536. Null when the two do not fit together.
 *
 * @param signedInput - The values looked up are signed; the first mapped one is then read as signed.
 */
export function readLookupTable(
  attributes: Attributes,
  descriptor: Keyword,
  data: Keyword,
  signedInput: boolean,
): LookupTable | null {
  const unsignedParts = attributes.shorts(descriptor, false);
  const [statedCount, , bitsPerEntry] = unsignedParts.map((value) => value & 0xffff);
  const firstMapped = attributes.shorts(descriptor, signedInput)[1];
  if (statedCount === undefined || bitsPerEntry === undefined || firstMapped === undefined) return null;
  if (bitsPerEntry < 1 || bitsPerEntry > 16) return null;
  const entries = readEntries(attributes, data, statedCount === 0 ? 65_536 : statedCount);
  return entries === null
    ? null
    : { firstMapped, bitsPerEntry, entries, explanation: attributes.text('LUTExplanation') };
}
