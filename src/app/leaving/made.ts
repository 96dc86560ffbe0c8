import { failure, type Result } from '../../geometry/result.ts';

/** Why something cannot be made, in words for the person: what happened, what to do, what can leave all the same. */
export interface Refusal {
  readonly kind: 'refused';
  readonly sentence: string;
}

export type Made<Value> = Result<Value, Refusal>;

export const refused = (sentence: string) => failure<Refusal>({ kind: 'refused', sentence });
