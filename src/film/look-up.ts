import type { LookupTable } from './film.ts';

/**
 * The entry for a value, rounded to the nearest whole one: values below the first mapped take the first entry,
 * values beyond the last take the last (PS3.3 C.11.1.1.1, C.11.2.1.1).
 */
export function lookUp(table: LookupTable, value: number): number {
  const index = Math.round(value) - table.firstMapped;
  return table.entries[Math.min(Math.max(index, 0), table.entries.length - 1)] as number;
}
