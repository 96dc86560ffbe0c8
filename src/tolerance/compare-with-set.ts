import type { Ray, Region, View } from './anatomy.ts';
import { compare, type Estimate, type Judgement, type Outcome } from './compare.ts';
import type { LimitQuantity, LimitRow, LimitSet } from './limit-set.ts';
import { findRow } from './limit-sets.ts';
import { bandText, probabilityText, valueText } from './limit-words.ts';

/** What is compared: an angle, as measured and less the normal, or a displacement, which has one value. */
export type Comparable =
  | {
      readonly quantity: 'apex-dorsal' | 'coronal';
      /** Signed, apex dorsal (or radial) positive, when the side has been marked; else ≥ 0. */
      readonly measured: Estimate;
      /** Measured less the normal, same sign; null when no normal could be had. */
      readonly deformity: Estimate | null;
      /** Whether the dorsal (or radial) side has been marked, so that the sign means something. */
      readonly signed: boolean;
    }
  | { readonly quantity: 'shortening' | 'joint-step'; readonly value: Estimate };

/** Why an outcome is what it is; the sentence follows from it. */
export type ComparisonReason =
  | 'whole-interval-on-one-side'
  | 'interval-straddles'
  | 'value-in-band'
  | 'measured-and-deformity-differ'
  | 'deformity-missing'
  | 'bends-the-other-way'
  | 'no-row'
  | 'no-number';

export interface SetComparison {
  readonly row: LimitRow | null;
  readonly comparedWith: 'measured' | 'deformity' | 'both' | 'value';
  readonly outcome: Outcome;
  readonly reason: ComparisonReason;
  /** Null without a limit, and where measured and deformity were both compared and differ. */
  readonly probabilityPast: number | null;
  /** One sentence that stands alone: the outcome, the limit, the value and how sure it is. */
  readonly words: string;
}

/** The quantity that an angle read in this view is; a radiograph of unknown view has none. */
export function angleQuantityIn(view: View | null): 'apex-dorsal' | 'coronal' | null {
  if (view === null) return null;
  return view === 'pa' ? 'coronal' : 'apex-dorsal';
}

/**
 * A reading against the row of a limit set that answers for it.
 *
 * A set that applies to the deformity is compared with the deformity, one that applies to the measured angle
 * with the measured angle. Where the source does not say, both are compared, and where the two outcomes
 * differ the outcome is "cannot tell" with that reason.
 */
export function compareWithSet(
  set: LimitSet,
  place: { readonly ray: Ray; readonly region: Region },
  comparable: Comparable,
): SetComparison {
  const row = findRow(set, place.ray, place.region, comparable.quantity);
  const comparedWith = comparedWithIn(set, comparable);
  if (row === null)
    return withoutLimit(
      null,
      comparedWith,
      'no-row',
      `No limit on file: “${set.title}” says nothing about ${quantityWords[comparable.quantity]} of the ${place.ray} ${place.ray === 'thumb' ? '' : 'finger '}${place.region}.`,
    );
  if (row.band === null)
    return withoutLimit(row, comparedWith, 'no-number', `No limit on file as a number: ${row.note ?? ''}`);
  if (!('measured' in comparable)) return one(row, comparedWith, comparable.value, 'value');

  const { measured, deformity, signed } = comparable;
  if (set.appliesTo === 'measured') return angle(row, comparedWith, measured, 'measured angle', signed);
  if (deformity === null)
    return {
      row,
      comparedWith,
      outcome: 'cannot tell',
      reason: 'deformity-missing',
      probabilityPast: null,
      words: `Cannot tell against the limit of ${limitOf(row)}: it may be meant for the deformity, and no normal position has been taken off yet.`,
    };
  const less = angle(row, comparedWith, deformity, 'deformity', signed);
  if (set.appliesTo === 'deformity') return less;
  return both(row, angle(row, comparedWith, measured, 'measured angle', signed), less, comparable);
}

const limitOf = (row: LimitRow): string => (row.band === null ? '' : bandText(row.band, row.unit));

const quantityWords = {
  'apex-dorsal': 'apex dorsal angulation',
  coronal: 'sideways angulation',
  shortening: 'shortening',
  rotation: 'rotation',
  'joint-step': 'a step in the joint surface',
} as const satisfies Readonly<Record<LimitQuantity, string>>;

function comparedWithIn(set: LimitSet, comparable: Comparable): SetComparison['comparedWith'] {
  if (!('measured' in comparable)) return 'value';
  return set.appliesTo === 'not stated' ? 'both' : set.appliesTo;
}

const withoutLimit = (
  row: LimitRow | null,
  comparedWith: SetComparison['comparedWith'],
  reason: ComparisonReason,
  words: string,
): SetComparison => ({
  row,
  comparedWith,
  outcome: 'no limit on file',
  reason,
  probabilityPast: null,
  words,
});

/**
 * An apex dorsal limit says nothing of a bone bent surely the other way, so it must not call that "inside".
 * Sideways limits have no side: the size is compared.
 */
function angle(
  row: LimitRow,
  comparedWith: SetComparison['comparedWith'],
  estimate: Estimate,
  name: string,
  signed: boolean,
): SetComparison {
  if (row.quantity === 'coronal')
    return one(row, comparedWith, { ...estimate, value: Math.abs(estimate.value) }, name);
  if (
    signed &&
    compare({ ...estimate, value: -estimate.value }, { lo: 0, hi: 0 }).outcome === 'past the limit'
  )
    return withoutLimit(
      row,
      comparedWith,
      'bends-the-other-way',
      `No limit on file: the ${name} of ${valueText(-estimate.value, row.unit)} is apex volar, and the limit of ${limitOf(row)} is for apex dorsal.`,
    );
  return one(row, comparedWith, estimate, name);
}

function one(
  row: LimitRow,
  comparedWith: SetComparison['comparedWith'],
  estimate: Estimate,
  name: string,
): SetComparison {
  const judgement = compare(estimate, row.band);
  const inBand = row.band !== null && estimate.value > row.band.lo && estimate.value <= row.band.hi;
  return {
    row,
    comparedWith,
    outcome: judgement.outcome,
    reason:
      judgement.outcome !== 'cannot tell'
        ? 'whole-interval-on-one-side'
        : inBand
          ? 'value-in-band'
          : 'interval-straddles',
    probabilityPast: judgement.probabilityPast,
    words: oneInWords(row, judgement, valueText(estimate.value, row.unit), name, inBand),
  };
}

function oneInWords(
  row: LimitRow,
  judgement: Judgement,
  value: string,
  name: string,
  inBand: boolean,
): string {
  const limit = limitOf(row);
  const what = name === 'value' ? value : `the ${name} of ${value}`;
  switch (judgement.outcome) {
    case 'past the limit':
      return `Past the limit of ${limit}: ${what} lies above it, ${probabilityText(judgement.probabilityPast)} sure.`;
    case 'inside the limit':
      return `Inside the limit of ${limit}: ${what} lies below it, ${probabilityText(1 - judgement.probabilityAboveLower)} sure.`;
    case 'cannot tell': {
      const why = inBand
        ? 'lies in the range over which opinion differs'
        : 'has an interval that reaches across it';
      return `Cannot tell against the limit of ${limit}: ${what} ${why}; ${probabilityText(judgement.probabilityPast)} that it is past the upper end.`;
    }
    case 'no limit on file':
      return 'No limit on file.';
  }
}

/** The less certain of two equal outcomes speaks for both; two that differ make "cannot tell". */
function both(
  row: LimitRow,
  measured: SetComparison,
  deformity: SetComparison,
  comparable: Extract<Comparable, { readonly measured: Estimate }>,
): SetComparison {
  if (measured.outcome === deformity.outcome) return leastCertain(measured, deformity);
  const read = valueText(comparable.measured.value, row.unit);
  const less = comparable.deformity === null ? '' : valueText(comparable.deformity.value, row.unit);
  return {
    row,
    comparedWith: 'both',
    outcome: 'cannot tell',
    reason: 'measured-and-deformity-differ',
    probabilityPast: null,
    words: `Cannot tell against the limit of ${limitOf(row)}: the source does not say whether the normal is taken off first. As measured (${read}): ${measured.outcome}; less the normal (${less}): ${deformity.outcome}.`,
  };
}

function leastCertain(measured: SetComparison, deformity: SetComparison): SetComparison {
  const past = (comparison: SetComparison) => comparison.probabilityPast ?? 0;
  const deformityIsLess =
    deformity.outcome === 'inside the limit'
      ? past(deformity) > past(measured)
      : past(deformity) < past(measured);
  return deformityIsLess ? deformity : measured;
}
