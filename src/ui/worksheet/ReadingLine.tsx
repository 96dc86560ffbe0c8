import { useRef } from 'react';
import { formatReading, quantityName } from '../../case/format.ts';
import type { KnownReading, Reading } from '../../case/reading.ts';
import type { View } from '../../tolerance/anatomy.ts';
import { VIEW_WORDS } from '../../tolerance/limit-method.ts';
import { HelpMark } from '../help/HelpMark.tsx';
import { PAGE_OF_QUANTITY } from '../help/page-of.ts';
import { useLive } from '../live.ts';
import { Budget } from './Budget.tsx';

interface ReadingLineProps {
  readonly reading: Reading;
  /** Of the film shown. */
  readonly view: View | null;
}

/** One reading: its number with the interval, opening to what it rests on; or what it lacks. */
export function ReadingLine({ reading, view }: ReadingLineProps) {
  const value = useRef<HTMLSpanElement>(null);
  const plusMinus = useRef<HTMLSpanElement>(null);
  const note = useRef<HTMLElement>(null);
  useLive((assessment) => {
    const now = assessment.readings.find(({ id }) => id === reading.id);
    if (value.current === null || plusMinus.current === null || note.current === null) return;
    if (now?.state !== 'known') {
      // The number of the last place must not stand for one that has none.
      value.current.textContent = '–';
      plusMinus.current.textContent = '';
      note.current.textContent = now?.lacks ?? '';
      return;
    }
    const text = formatReading(now);
    value.current.textContent = text.value;
    plusMinus.current.textContent = text.plusMinus;
    // Angles are written without their sign: the way they bend must turn with them.
    note.current.textContent = noteFor(now);
  });
  const name = quantityName(reading.quantity, view);
  const help = <HelpMark page={PAGE_OF_QUANTITY[reading.quantity]} of={name} />;
  if (reading.state === 'missing')
    return (
      <div className="reading reading--lacks" data-quantity={reading.quantity}>
        <p>
          {name}
          <small>{reading.lacks}</small>
        </p>
        {help}
      </div>
    );
  const text = formatReading(reading);
  return (
    <div className="reading" data-main={MAIN.has(reading.quantity) || undefined}>
      <details data-quantity={reading.quantity}>
        <summary>
          <span className="line__name">
            {name}
            <small ref={note}>{noteFor(reading)}</small>
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
          {reading.basis !== null && <p>{reading.basis}</p>}
          <Budget reading={reading} />
          <p className="aside-note">{reading.leavesOut}</p>
        </div>
      </details>
      {help}
    </div>
  );
}

/** What a decision hangs on is set larger than what leads to it. */
const MAIN: ReadonlySet<Reading['quantity']> = new Set(['angulation', 'deformity']);

function noteFor(reading: KnownReading): string {
  const view = reading.view === null ? 'view not said' : `${VIEW_WORDS[reading.view]} view`;
  if (reading.basis !== null) return reading.basis;
  return reading.apex === null ? view : `${reading.apex}, ${view}`;
}
