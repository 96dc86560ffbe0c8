import { failure, type Result, success } from '../geometry/result.ts';
import { type Degrees, degrees } from '../geometry/units.ts';
import type { Ray, Region, View } from './anatomy.ts';
import { CONSTRUCTION_WORDS, type ReadingMethod, VIEW_WORDS } from './limit-method.ts';
import { NORMAL_TABLES, type NormalTable } from './normal-tables.ts';

/** A published normal for one reading. */
export interface PublishedNormal {
  readonly tableId: string;
  /** Apex dorsal positive. */
  readonly value: Degrees;
  /** Spread between people; it enters the deformity as its standard uncertainty, of known variance. */
  readonly standardDeviation: Degrees;
  readonly spread: 'published' | 'assumed';
  /** Where the number comes from, as one sentence with the source. */
  readonly basis: string;
  readonly citation: string;
  /** How the norm was drawn otherwise than the reading, as one sentence; null: alike. */
  readonly mismatch: string | null;
}

export type NoPublishedNormal =
  | { readonly kind: 'view-not-said'; readonly message: string }
  | { readonly kind: 'no-published-normal'; readonly message: string };

/**
 * The published normal that fits a reading best: of the tables that hold this finger and part of the bone
 * the one with the fewest differences in view and construction, then the first in `NORMAL_TABLES`. What
 * still differs is said in `mismatch`. A lateral norm serves an oblique film, since there is none for
 * obliques, and the view is then one of the differences.
 *
 * Fails with `view-not-said`, and with `no-published-normal` for the thumb, the head, and the base seen
 * from the side: nothing is on file there, and the reading's normal is the other hand's or zero, stated.
 */
export function publishedNormal(
  reading: ReadingMethod & { readonly ray: Ray; readonly region: Region },
): Result<PublishedNormal, NoPublishedNormal> {
  const { ray, region, view } = reading;
  if (view === null)
    return failure({
      kind: 'view-not-said',
      message: 'A published normal belongs to a view: set the view of this film first.',
    });
  const candidates = NORMAL_TABLES.flatMap((table) => {
    const row = table.rows.find((candidate) => candidate.rays.includes(ray));
    const fits = table.regions.includes(region) && serves(table.view, view);
    return row === undefined || !fits ? [] : [{ table, row, differences: differencesFrom(table, reading) }];
  });
  const best = candidates.toSorted((one, other) => one.differences.length - other.differences.length)[0];
  if (best === undefined)
    return failure({
      kind: 'no-published-normal',
      message: `No published normal is on file for the ${ray === 'thumb' ? 'thumb' : `${ray} finger`} ${region} in the ${VIEW_WORDS[view]} view: measure the other hand, or take zero.`,
    });
  const { table, row, differences } = best;
  const spread = `standard deviation ${row.standardDeviationDegrees}°${table.spread === 'assumed' ? ', assumed' : ''}`;
  return success({
    tableId: table.id,
    value: degrees(row.meanDegrees),
    standardDeviation: degrees(row.standardDeviationDegrees),
    spread: table.spread,
    basis: `Published normal ${row.meanDegrees}° (${spread}): ${table.title}; ${table.citation}.`,
    citation: table.citation,
    mismatch: differences.length === 0 ? null : `“${table.title}”: ${differences.join('; ')}.`,
  });
}

const serves = (tableView: View, view: View): boolean =>
  tableView === view || (tableView === 'lateral' && view === 'oblique');

/** Each difference as a clause. */
function differencesFrom(table: NormalTable, reading: ReadingMethod): readonly string[] {
  const found: string[] = [];
  if (reading.view !== null && reading.view !== table.view)
    found.push(
      `it is for the ${VIEW_WORDS[table.view]} view, and this is the ${VIEW_WORDS[reading.view]} one`,
    );
  for (const [name, drawn, norm] of [
    ['proximal', reading.proximal, table.proximal],
    ['distal', reading.distal, table.distal],
  ] as const)
    if (!norm.includes(drawn))
      found.push(
        `its ${name} line follows ${norm.map((one) => CONSTRUCTION_WORDS[one]).join(' or ')}, and here it follows ${CONSTRUCTION_WORDS[drawn]}`,
      );
  if (table.caveat !== null) found.push(table.caveat);
  return found;
}
