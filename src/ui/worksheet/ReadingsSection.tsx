import { useRef } from 'react';
import type { Assessment, KnownReading, NextStep, Reading } from '../../case/assessment.ts';
import type { RecordId, SettingsRecord } from '../../case/document.ts';
import { decimalsFor, formatReading, QUANTITY_NAMES } from '../../case/format.ts';
import type { BenchActions } from '../actions.ts';
import { Pick } from '../controls/controls.tsx';
import { knownReading, useLive } from '../live.ts';
import { Line, Section } from './Section.tsx';

const NORMAL_OPTIONS: readonly { value: SettingsRecord['normal']; name: string }[] = [
  { value: 'best', name: 'best available' },
  { value: 'other-hand', name: 'other hand' },
  { value: 'published', name: 'published' },
  { value: 'zero', name: 'none taken off' },
];

interface ReadingsSectionProps {
  readonly assessment: Assessment;
  readonly filmId: RecordId;
  readonly settings: SettingsRecord;
  readonly next: NextStep | null;
  readonly actions: BenchActions;
}

export function ReadingsSection({ assessment, filmId, settings, actions }: ReadingsSectionProps) {
  const readings = assessment.readings.filter((reading) => reading.filmId === filmId);
  return (
    <Section title="Readings" state="95 % interval">
      {readings.length === 0 && (
        <p className="aside-note">Place both axes and the readings appear here while you move them.</p>
      )}
      {readings.map((reading) => (
        <ReadingLine key={reading.id} reading={reading} />
      ))}
      <Line name="Normal to take off">
        <Pick
          label="Normal to take off"
          labelHidden
          options={NORMAL_OPTIONS}
          value={settings.normal}
          onChange={(normal) => actions.setSettings({ normal }, 'choose the normal')}
        />
      </Line>
    </Section>
  );
}

function ReadingLine({ reading }: { reading: Reading }) {
  const value = useRef<HTMLSpanElement>(null);
  const plusMinus = useRef<HTMLSpanElement>(null);
  useLive((live) => {
    const known = knownReading(live, reading.id);
    if (known === null || value.current === null || plusMinus.current === null) return;
    const text = formatReading(known);
    value.current.textContent = text.value;
    plusMinus.current.textContent = text.plusMinus;
  });
  if (reading.state === 'missing') return <Line name={QUANTITY_NAMES[reading.quantity]} note={reading.lacks} />;
  const text = formatReading(reading);
  return (
    <details className="reading" data-quantity={reading.quantity}>
      <summary>
        <span className="line__name">
          {QUANTITY_NAMES[reading.quantity]}
          <small>{noteFor(reading)}</small>
        </span>
        <span className="reading__number">
          <span ref={value} className="reading__value">
            {text.value}
          </span>{' '}
          <span ref={plusMinus} className="reading__interval">
            {text.plusMinus}
          </span>
        </span>
      </summary>
      <div className="reading__inside">
        <p>{reading.definition}</p>
        <Budget reading={reading} />
        <p className="aside-note">{reading.leavesOut}</p>
      </div>
    </details>
  );
}

function noteFor(reading: KnownReading): string {
  const view =
    reading.view === null ? 'view not said' : `${reading.view === 'pa' ? 'PA' : reading.view} view`;
  if (reading.basis !== null) return reading.basis;
  return reading.apex === null ? view : `${reading.apex}, ${view}`;
}

/** Each source of uncertainty with its size and its share of the variance, largest first. */
function Budget({ reading }: { reading: KnownReading }) {
  const unit = reading.unit === 'degrees' ? '°' : reading.unit === 'millimetres' ? 'mm' : '';
  const lines = [...reading.budget].sort((one, other) => other.share - one.share);
  return (
    <table className="budget">
      <caption>Where the ± comes from</caption>
      <thead>
        <tr>
          <th scope="col">Source</th>
          <th scope="col">One SD</th>
          <th scope="col">Share</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr key={line.source}>
            <th scope="row">
              {line.source}
              <small>{line.basis}</small>
            </th>
            <td>
              {line.standardUncertainty.toFixed(Math.max(1, decimalsFor(2 * line.standardUncertainty)))}
              {unit}
            </td>
            <td>{Math.round(line.share * 100)} %</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
