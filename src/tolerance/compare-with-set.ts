import { coverageFactor } from '../geometry/distributions.ts';
import type { Ray, Region, View } from './anatomy.ts';
import { compare, type Estimate, type Judgement, type Outcome } from './compare.ts';
import type { Band, LimitQuantity, LimitRow, LimitSet } from './limit-set.ts';
import { findRow } from './limit-sets.ts';
import { bandText, probabilityText, valueText } from './limit-words.ts';

/** What is compared: an angle, as measured and less the normal, or a displacement, which has one value. */
export type Comparable =
  | {
      readonly quantity: 'apex-dorsal' | 'coronal';
      /** Apex dorsal (or radial) positive when the side has been marked; else ≥ 0. */
      readonly measured: Estimate;
      /** Measured less the normal, same sign; null when no normal could be had. */
      readonly deformity: Estimate | null;
      /** Whether the dorsal (or radial) side has been marked; else the words say what was taken for granted. */
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
  if (row === null) {
    const bone = place.ray === 'thumb' ? 'thumb' : `${place.ray} finger`;
    const words = `No limit on file: “${set.title}” says nothing about ${QUANTITY_WORDS[comparable.quantity]} of the ${bone} ${place.region}.`;
    return withoutLimit(null, comparedWith, 'no-row', words);
  }
  if (!hasBand(row))
    return withoutLimit(row, comparedWith, 'no-number', `No limit on file as a number: ${row.note ?? ''}`);
  if (!('measured' in comparable)) return one(row, 'value', comparable.value, inUnit(comparable.value, row));
  if (set.appliesTo === 'measured') return angle(row, 'measured', comparable.measured, comparable.signed);
  const { measured, deformity, signed } = comparable;
  if (deformity === null)
    return {
      row,
      comparedWith,
      outcome: 'cannot tell',
      reason: 'deformity-missing',
      probabilityPast: null,
      words: `Cannot tell against the limit of ${limitOf(row)}: it may be meant for the deformity, and no normal position has been taken off yet.`,
    };
  return set.appliesTo === 'deformity'
    ? angle(row, 'deformity', deformity, signed)
    : compareBoth(row, measured, deformity, signed);
}

/** A row with numbers, which is the only kind a value can be compared with. */
type NumberRow = LimitRow & { readonly band: Band };

const hasBand = (row: LimitRow): row is NumberRow => row.band !== null;

/** The value as it stands beside its reading, where its interval is the same. */
const inUnit = ({ value, standardUncertainty, degreesOfFreedom }: Estimate, { unit }: LimitRow): string =>
  valueText(value, coverageFactor(degreesOfFreedom) * standardUncertainty, unit);

const limitOf = (row: NumberRow): string => bandText(row.band, row.unit);

const QUANTITY_WORDS = {
  'apex-dorsal': 'apex dorsal angulation',
  coronal: 'coronal angulation',
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

const VALUE_NAME = { measured: 'measured angle', deformity: 'deformity' } as const;

/**
 * An apex dorsal limit says nothing of a bone bent surely the other way, so it must not call that "inside".
 * Sideways limits have no side: the size is compared. An angle without a marked side is taken as the limit
 * means it, and the words say so.
 */
function angle(
  row: NumberRow,
  kind: 'measured' | 'deformity',
  estimate: Estimate,
  signed: boolean,
): SetComparison {
  const name = VALUE_NAME[kind];
  if (row.quantity === 'coronal') {
    const size = { ...estimate, value: Math.abs(estimate.value) };
    return one(row, kind, size, `the ${name} of ${inUnit(size, row)}`);
  }
  const volar = { ...estimate, value: -estimate.value };
  const assumed = signed ? '' : ' (side not marked, taken as apex dorsal)';
  if (compare(volar, { lo: 0, hi: 0 }).outcome === 'past the limit') {
    const words = `No limit on file: the ${name} of ${inUnit(volar, row)}${assumed} is apex volar, and the limit of ${limitOf(row)} is for apex dorsal.`;
    return withoutLimit(row, kind, 'bends-the-other-way', words);
  }
  return one(row, kind, estimate, `the ${name} of ${inUnit(estimate, row)}${assumed}`);
}

/** @param what - The value in words, as the subject of a sentence. */
function one(
  row: NumberRow,
  comparedWith: SetComparison['comparedWith'],
  estimate: Estimate,
  what: string,
): SetComparison {
  const judgement = compare(estimate, row.band);
  const inBand = estimate.value > row.band.lo && estimate.value <= row.band.hi;
  const { outcome, probabilityPast } = judgement;
  const undecided = inBand ? 'value-in-band' : 'interval-straddles';
  return {
    row,
    comparedWith,
    outcome,
    reason: outcome === 'cannot tell' ? undecided : 'whole-interval-on-one-side',
    probabilityPast,
    words: inWords(row, judgement, what, inBand),
  };
}

function inWords(row: NumberRow, judgement: Judgement, what: string, inBand: boolean): string {
  const limit = limitOf(row);
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
  }
}

/** The less certain of two equal outcomes speaks for both; two that differ make "cannot tell". */
function compareBoth(
  row: NumberRow,
  measured: Estimate,
  deformity: Estimate,
  signed: boolean,
): SetComparison {
  const asMeasured = angle(row, 'measured', measured, signed);
  const lessNormal = angle(row, 'deformity', deformity, signed);
  if (asMeasured.outcome === lessNormal.outcome) {
    const deformitySpeaks =
      certaintyOf(deformity, row, asMeasured.outcome) < certaintyOf(measured, row, asMeasured.outcome);
    return { ...(deformitySpeaks ? lessNormal : asMeasured), comparedWith: 'both' };
  }
  return {
    row,
    comparedWith: 'both',
    outcome: 'cannot tell',
    reason: 'measured-and-deformity-differ',
    probabilityPast: null,
    words: `Cannot tell against the limit of ${limitOf(row)}: the source does not say whether the normal is taken off first. As measured (${inUnit(measured, row)}): ${asMeasured.outcome}; less the normal (${inUnit(deformity, row)}): ${lessNormal.outcome}.`,
  };
}

/** How certain an outcome is, as a probability; of two undecided values the likelier past speaks. */
function certaintyOf(estimate: Estimate, row: NumberRow, outcome: Outcome): number {
  const sized = row.quantity === 'coronal' ? { ...estimate, value: Math.abs(estimate.value) } : estimate;
  const { probabilityPast, probabilityAboveLower } = compare(sized, row.band);
  if (outcome === 'past the limit') return probabilityPast;
  return outcome === 'inside the limit' ? 1 - probabilityAboveLower : 1 - probabilityPast;
}
