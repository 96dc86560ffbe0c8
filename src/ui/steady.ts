import { useRef } from 'react';
import { sameStructure } from '../case/equal.ts';

/**
 * What was given before, as long as nothing in it is different: what is worked out anew from every case, and comes to
 * the same, then draws nothing anew.
 */
export function useSteady<Value>(value: Value): Value {
  const kept = useRef(value);
  if (kept.current !== value && !sameStructure(kept.current, value)) kept.current = value;
  return kept.current;
}
