import type { FilmRecord, InjuryRecord } from '../../case/document.ts';
import type { TraceState } from '../../ui/worksheet/TraceLine.tsx';
import { angleWords } from './proposal.ts';
import { traceLacks } from './trace-actions.ts';
import { type TraceTask, tapWanted } from './trace-task.ts';

/** What the worksheet says of tracing on the film shown. */
export function traceState(trace: TraceTask | null, film: FilmRecord, injury: InjuryRecord): TraceState {
  if (trace === null || trace.filmId !== film.id) return { kind: 'offered', lacks: traceLacks(film, injury) };
  const wanted = tapWanted(trace);
  const canStepBack = trace.taps.length > 0;
  if (wanted !== null) return { kind: 'tapping', instruction: wanted, canStepBack };
  if (trace.running) return { kind: 'running' };
  if (trace.found === null) return { kind: 'failed', sentence: trace.failed ?? '', canStepBack };
  const { bone, doubts } = trace.found;
  const { value, interval } = angleWords(bone);
  return {
    kind: 'proposed',
    sure: bone.sure,
    angle: value,
    interval,
    reasons: doubts,
    canStepBack: trace.adjustments.length > 0,
  };
}
