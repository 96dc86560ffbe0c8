import type { Ray } from './anatomy.ts';
import { NORMAL_TABLES } from './normal-tables.ts';

/** Where along a sound metacarpal its own bend lies, from the base, in % of its length. */
export interface NormalBend {
  readonly meanPercent: number;
  readonly standardDeviationPercent: number;
  readonly leastPercent: number;
  readonly mostPercent: number;
  /** As short as a line beside a reading bears. */
  readonly citation: string;
}

/** The published place of the bend; null where none is on file, as for the thumb. */
export function normalBend(ray: Ray): NormalBend | null {
  for (const { bend } of NORMAL_TABLES) {
    const row = bend?.rows.find(({ rays }) => rays.includes(ray));
    if (bend && row) return { ...row, citation: bend.citation };
  }
  return null;
}
