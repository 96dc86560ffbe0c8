import { assess } from '../case/assess.ts';
import type { Assessment } from '../case/assessment.ts';
import type { CaseDocument, MarkShape, RecordId } from '../case/document.ts';
import { corrected } from '../case/marks.ts';
import type { LimitSet } from '../tolerance/limit-set.ts';
import type { Live } from '../ui/live.ts';
import { allSets } from './limits/sets.ts';
import type { AppState } from './state.ts';

const known = new WeakMap<
  CaseDocument,
  { readonly sets: readonly LimitSet[]; readonly assessment: Assessment }
>();

/**
 * The assessment of a document, worked out once for each document and each list of limit sets.
 *
 * @param limitSets - Every set on this computer, as `allSets` gives them.
 */
export function assessmentOf(document: CaseDocument, limitSets: readonly LimitSet[]): Assessment {
  const before = known.get(document);
  if (before?.sets === limitSets) return before.assessment;
  const assessment = assess(document, limitSets);
  known.set(document, { sets: limitSets, assessment });
  return assessment;
}

/** The assessment of the case on screen. */
export const currentAssessment = ({
  caseState,
  localSets,
}: Pick<AppState, 'caseState' | 'localSets'>): Assessment =>
  assessmentOf(caseState.document, allSets(localSets));

/** The document as it would be with one mark moved, for a preview. */
export function withShape(document: CaseDocument, markId: RecordId, shape: MarkShape): CaseDocument {
  const mark = document.records[markId];
  if (mark?.kind !== 'mark') return document;
  return { ...document, records: { ...document.records, [markId]: corrected(mark, shape) } };
}

/** Hands previewed assessments to whoever shows numbers, at most once per frame. */
export class LiveAssessments implements Live {
  private readonly listeners = new Set<(assessment: Assessment) => void>();
  private waiting: CaseDocument | null = null;

  /** @param limitSets - Every set on this computer at the moment. */
  constructor(private readonly limitSets: () => readonly LimitSet[]) {}

  subscribe(listener: (assessment: Assessment) => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  show(document: CaseDocument): void {
    const idle = this.waiting === null;
    this.waiting = document;
    if (idle) requestAnimationFrame(() => this.deliver());
  }

  private deliver(): void {
    if (this.waiting === null) return;
    const assessment = assessmentOf(this.waiting, this.limitSets());
    this.waiting = null;
    for (const listener of this.listeners) listener(assessment);
  }
}
