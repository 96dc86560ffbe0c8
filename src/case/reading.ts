import type { Construction, View } from '../tolerance/anatomy.ts';
import type { Provenance, RecordId } from './document.ts';

/** The method of a shortening is part of what it is: the methods do not agree with one another. */
export type Quantity =
  | 'angulation'
  | 'normal'
  | 'deformity'
  | 'bend-place'
  | 'length'
  | 'shortening-by-other-hand'
  | 'shortening-by-neighbours'
  | 'shortening-by-head-line'
  | 'shortening-by-overlap'
  | 'head-line-distance'
  | 'translation'
  | 'translation-of-width'
  | 'joint-step'
  | 'joint-gap'
  | 'spatial-angle'
  | 'spatial-direction'
  | 'nail-direction'
  | 'nail-direction-difference'
  | 'nail-overlap';

/** A bending direction in words; null until the dorsal or radial side has been tapped. */
export type ApexDirection = 'apex dorsal' | 'apex volar' | 'apex radial' | 'apex ulnar' | null;

/** One source in an uncertainty budget. Shares add up to 1. */
export interface BudgetLine {
  readonly source: string;
  /** Standard uncertainty this source alone would give, in the unit of the reading. */
  readonly standardUncertainty: number;
  readonly share: number;
  /** What the size rests on: "assumed", "from 6 repeats", "published SD, Bhandari 2017". */
  readonly basis: string;
}

export interface KnownReading {
  readonly state: 'known';
  readonly id: string;
  readonly quantity: Quantity;
  readonly filmId: RecordId;
  readonly view: View | null;
  /**
   * In `unit`. Angles carry a sign once the side is known, and are ≥ 0 until then; a deformity is negative
   * where less was measured than is normal.
   */
  readonly value: number;
  /** For angles, whether the dorsal or radial side has been tapped, so that the sign means something. */
  readonly signed: boolean;
  readonly unit:
    | 'degrees'
    | 'millimetres'
    | 'percent of bone'
    | 'percent of shaft width'
    | 'percent of nail width';
  readonly standardUncertainty: number;
  /** Effective; Infinity when every source is of known variance. */
  readonly degreesOfFreedom: number;
  /** Half-width of the 95 % interval: k from the t distribution times the standard uncertainty. */
  readonly expandedUncertainty: number;
  readonly apex: ApexDirection;
  readonly budget: readonly BudgetLine[];
  /** The constructions the reading rests on: proximal, then distal. */
  readonly constructions: readonly Construction[];
  /** How the marks of these axes came about, in the same order. */
  readonly provenances: readonly Provenance[];
  /** What was measured, in one sentence. */
  readonly definition: string;
  /** What the interval leaves out, in one sentence. */
  readonly leavesOut: string;
  /** Where the value comes from when it is not measured on this film ("other hand, film 3"). */
  readonly basis: string | null;
}

export interface MissingReading {
  readonly state: 'missing';
  readonly id: string;
  readonly quantity: Quantity;
  readonly filmId: RecordId;
  /** What it lacks and what to do, as one sentence. */
  readonly lacks: string;
}

export type Reading = KnownReading | MissingReading;
