import { MOMENT_WORDS } from '../../case/course/order.ts';
import { type FilmRecord, MOMENTS, type Moment } from '../../case/document.ts';
import type { BenchActions } from '../actions.ts';
import { Pick } from '../controls/controls.tsx';
import { WholeNumber } from '../controls/WholeNumber.tsx';

interface FilmTimesProps {
  readonly films: readonly {
    readonly record: FilmRecord;
    readonly name: string;
    readonly thumbnail: string | null;
  }[];
  readonly injuryDate: string | null;
  readonly actions: BenchActions;
}

const MOMENT_OPTIONS = [
  { value: 'not-said' as const, name: 'not said', none: true },
  ...MOMENTS.map((value) => ({ value, name: MOMENT_WORDS[value] })),
];

/** When each film was taken; the user says it, because the file's date is not to be trusted to be there. */
export function FilmTimes({ films, injuryDate, actions }: FilmTimesProps) {
  return (
    <section className="film-times" aria-label="When the films were taken">
      <h3>When the films were taken</h3>
      <ul>
        {films.map(({ record, name, thumbnail }) => (
          <li key={record.id}>
            {thumbnail === null ? <span className="film-times__blank" /> : <img src={thumbnail} alt="" />}
            <span className="film-times__name">{name}</span>
            <WholeNumber
              label={`Days since the injury, ${name}`}
              value={record.day}
              min={0}
              max={3650}
              onChange={(day) => actions.setFilm(record.id, { day }, 'set the day of the film')}
            />
            <Pick
              label={`Moment of the ${name}`}
              labelHidden
              options={MOMENT_OPTIONS}
              value={record.moment ?? 'not-said'}
              onChange={(chosen) => {
                const moment: Moment | null = chosen === 'not-said' ? null : chosen;
                actions.setFilm(record.id, { moment }, 'say when the film was taken');
              }}
            />
          </li>
        ))}
      </ul>
      <label className="film-times__date">
        Day of the injury, only if dates are wanted beside the days
        <input
          type="date"
          className="text-input"
          value={injuryDate ?? ''}
          onChange={(event) => {
            const { value } = event.currentTarget;
            if (value !== (injuryDate ?? ''))
              actions.setInjury({ date: value === '' ? null : value }, 'set the day of the injury');
          }}
        />
      </label>
    </section>
  );
}
