import { failure, type Result, success } from '../../geometry/result.ts';
import type { FilmError, LookupTable } from '../film.ts';
import { lookUp } from '../look-up.ts';
import { luminance } from '../luminance.ts';
import type { Attributes } from './attributes.ts';
import { readLookupTable } from './lookup-tables.ts';
import type { GreyPixels } from './stored-values.ts';

const COLOURS = ['Red', 'Green', 'Blue'] as const;

/**
 * Palette indices to the luminance of their colours, in the bits of the palette (PS3.3 C.7.6.3.1.5). Entries of
 * a palette of 16 bits that only repeat one byte, or use the lower one, are kept as they are.
 */
export function palettePixels(indices: GreyPixels, attributes: Attributes): Result<GreyPixels, FilmError> {
  const tables: LookupTable[] = [];
  for (const colour of COLOURS) {
    const table = readLookupTable(
      attributes,
      `${colour}PaletteColorLookupTableDescriptor`,
      `${colour}PaletteColorLookupTableData`,
      indices.signed,
    );
    if (table === null) {
      return failure({ kind: 'unsupported-picture', detail: 'its colour palette is missing or in segments' });
    }
    tables.push(table);
  }
  const [red, green, blue] = tables as [LookupTable, LookupTable, LookupTable];
  const bitsStored = Math.max(red.bitsPerEntry, 8);
  const { pixels: from } = indices;
  const pixels = bitsStored === 8 ? new Uint8Array(from.length) : new Uint16Array(from.length);
  const greys = new Map<number, number>();
  for (let i = 0; i < from.length; i++) {
    const index = from[i] as number;
    let grey = greys.get(index);
    if (grey === undefined) {
      grey = luminance(lookUp(red, index), lookUp(green, index), lookUp(blue, index));
      greys.set(index, grey);
    }
    pixels[i] = grey;
  }
  return success({ pixels, bitsStored, signed: false });
}
