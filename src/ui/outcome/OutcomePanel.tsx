import { useRef } from 'react';
import type { Assessment, Comparison, KnownReading } from '../../case/assessment.ts';
import type { SettingsRecord } from '../../case/document.ts';
import { formatReading } from '../../case/format.ts';
import type { LimitSet } from '../../tolerance/limit-set.ts';
import type { BenchActions } from '../actions.ts';
import { Pick } from '../controls/controls.tsx';
import { knownReading, useLive } from '../live.ts';
import { CautionList } from './CautionList.tsx';
import { LimitRuler, type RulerHandle, type RulerTick } from './LimitRuler.tsx';

interface OutcomePanelProps {
  readonly assessment: Assessment;
  /** The comparison of the film shown with the first chosen set; null while nothing can be compared. */
  readonly comparison: Comparison | null;
  readonly ticks: readonly RulerTick[];
  readonly limitSets: readonly LimitSet[];
  readonly settings: SettingsRecord;
  readonly actions: BenchActions;
}

/** Always in sight: cautions worst first, the limit ruler, and the outcome in words. */
export function OutcomePanel(props: OutcomePanelProps) {
  const { assessment, comparison, ticks, limitSets, settings, actions } = props;
  const reading = comparison === null ? null : knownReading(assessment, comparison.readingId);
  const ruler = useRef<RulerHandle>(null);
  const words = useRef<HTMLParagraphElement>(null);
  useLive((live) => {
    if (comparison === null) return;
    const now = live.comparisons.find(
      (other) => other.readingId === comparison.readingId && other.limitSet.id === comparison.limitSet.id,
    );
    const known = knownReading(live, comparison.readingId);
    if (now === undefined || known === null) return;
    ruler.current?.show(rulerReading(known));
    if (words.current !== null) words.current.textContent = now.words;
  });
  const chosen = settings.limitSetIds[0] ?? limitSets[0]?.id ?? null;
  return (
    <section className="outcome" aria-label="Against the limits">
      <div className="outcome__head">
        <h2 className="section__title">Against the limits</h2>
        <Pick
          label="Limit set"
          labelHidden
          options={limitSets.map((set) => ({ value: set.id, name: set.title }))}
          value={chosen}
          onChange={(id) =>
            actions.setSettings(
              { limitSetIds: [id, ...settings.limitSetIds.slice(1)] },
              'choose the limit set',
            )
          }
        />
      </div>
      <CautionList cautions={assessment.cautions} atFirst={2} />
      {comparison !== null && reading !== null && (
        <LimitRuler
          ref={ruler}
          reading={rulerReading(reading)}
          band={comparison.row?.band ?? null}
          ticks={ticks}
          unit={comparison.row?.unit ?? 'degrees'}
          description={comparison.words}
        />
      )}
      <p ref={words} className="outcome__words" data-outcome={comparison?.outcome}>
        {comparison?.words ??
          'Nothing to compare yet: say which bone is broken, set the view and place both axes.'}
      </p>
    </section>
  );
}

function rulerReading(reading: KnownReading) {
  const text = formatReading(reading);
  return {
    value: reading.value,
    expandedUncertainty: reading.expandedUncertainty,
    text: `${text.value} ${text.plusMinus}`,
  };
}
