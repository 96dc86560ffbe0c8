import { assess } from '../case/assess.ts';
import type { Assessment } from '../case/assessment.ts';
import type { CaseDocument, MarkShape, RecordId } from '../case/document.ts';
import { corrected } from '../case/marks.ts';
import { SHIPPED_LIMIT_SETS } from '../tolerance/limit-sets.ts';
import type { Live } from '../ui/live.ts';

const known = new WeakMap<CaseDocument, Assessment>();

/** The assessment of a document, worked out once for each document. */
export function assessmentOf(document: CaseDocument): Assessment {
  const before = known.get(document);
  if (before !== undefined) return before;
  const assessment = assess(document, SHIPPED_LIMIT_SETS);
  known.set(document, assessment);
  return assessment;
}

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
    const assessment = assessmentOf(this.waiting);
    this.waiting = null;
    for (const listener of this.listeners) listener(assessment);
  }
}
