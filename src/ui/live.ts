import { createContext, useContext, useEffect, useRef } from 'react';
import type { Assessment } from '../case/assessment.ts';
import type { KnownReading } from '../case/reading.ts';

/**
 * Readings while a point is being dragged. React does not render per pointer move: whoever shows a number
 * writes it into its own element here, and the next committed change renders as usual.
 */
export interface Live {
  subscribe(listener: (assessment: Assessment) => void): () => void;
}

export const SILENT: Live = { subscribe: () => () => undefined };

export const LiveContext = createContext<Live>(SILENT);

/** Calls `listener` with each previewed assessment for as long as the component is shown. */
export function useLive(listener: (assessment: Assessment) => void): void {
  const live = useContext(LiveContext);
  const latest = useRef(listener);
  latest.current = listener;
  useEffect(() => live.subscribe((assessment) => latest.current(assessment)), [live]);
}

/** The known reading of an id, or null while it lacks something. */
export function knownReading(assessment: Assessment, id: string): KnownReading | null {
  const reading = assessment.readings.find((candidate) => candidate.id === id);
  return reading?.state === 'known' ? reading : null;
}
