import type { Assessment } from '../../case/assessment.ts';
import type { FilmRecord, SettingsRecord } from '../../case/document.ts';
import type { Quantity, Reading } from '../../case/reading.ts';
import type { BenchActions } from '../actions.ts';
import { Pick } from '../controls/controls.tsx';
import { HelpMark } from '../help/HelpMark.tsx';
import { PlacingErrorLine, type RepeatsState } from './PlacingErrorLine.tsx';
import { ReadingLine } from './ReadingLine.tsx';
import { Line, Section } from './Section.tsx';

const NORMAL_OPTIONS: readonly { value: SettingsRecord['normal']; name: string }[] = [
  { value: 'best', name: 'best available' },
  { value: 'other-hand', name: 'other hand' },
  { value: 'published', name: 'published' },
  { value: 'zero', name: 'none taken off' },
];

/** Readings that are looked at together, in the order in which they are read. */
const GROUPS: readonly { readonly title: string; readonly quantities: readonly Quantity[] }[] = [
  { title: 'Angle', quantities: ['angulation', 'normal', 'deformity', 'bend-place'] },
  { title: 'In space', quantities: ['spatial-angle', 'spatial-direction'] },
  {
    title: 'Length and shortening',
    quantities: [
      'length',
      'shortening-by-other-hand',
      'shortening-by-neighbours',
      'head-line-distance',
      'shortening-by-head-line',
      'shortening-by-overlap',
    ],
  },
  { title: 'Displacement', quantities: ['translation', 'translation-of-width'] },
  { title: 'Joint surface', quantities: ['joint-step', 'joint-gap'] },
  {
    title: 'Nails',
    quantities: ['nail-direction', 'nail-direction-difference', 'nail-overlap'],
  },
];

interface ReadingsSectionProps {
  readonly assessment: Assessment;
  readonly film: FilmRecord;
  readonly settings: SettingsRecord;
  readonly repeats: RepeatsState | null;
  readonly actions: BenchActions;
}

/** All that is read on the film shown, group by group; a group without a reading is not there. */
export function ReadingsSection({ assessment, film, settings, repeats, actions }: ReadingsSectionProps) {
  const readings = assessment.readings.filter(
    (reading) => reading.filmId === film.id || isSeenFrom(reading, film, assessment),
  );
  return (
    <Section title="Readings" state="95 % interval">
      {readings.length === 0 && (
        <p className="aside-note">
          {film.shows === 'fist'
            ? 'Mark both nails and their directions appear here while you move them.'
            : 'Place both axes and the readings appear here while you move them.'}
        </p>
      )}
      {GROUPS.map(({ title, quantities }) => {
        const lines = quantities.flatMap((quantity) =>
          readings.filter((reading) => reading.quantity === quantity),
        );
        if (lines.length === 0) return null;
        return (
          <section key={title} className="group" aria-label={title}>
            <h3 className="group__title">{title}</h3>
            {lines.map((reading) => (
              <ReadingLine key={reading.id} reading={reading} view={film.view} />
            ))}
            {title === 'Angle' && (
              <Line name="Normal to take off">
                <Pick
                  label="Normal to take off"
                  labelHidden
                  options={NORMAL_OPTIONS}
                  value={settings.normal}
                  onChange={(normal) => actions.setSettings({ normal }, 'choose the normal')}
                />
                <HelpMark page="deformity" of="the normal" />
              </Line>
            )}
          </section>
        );
      })}
      {film.shows === 'bones' && (
        <PlacingErrorLine settings={settings} film={film} repeats={repeats} actions={actions} />
      )}
    </Section>
  );
}

/** An angle in space belongs to two films; it is shown with either. */
function isSeenFrom(reading: Reading, film: FilmRecord, { readings }: Assessment): boolean {
  if (reading.quantity !== 'spatial-angle' && reading.quantity !== 'spatial-direction') return false;
  const measuredHere = readings.some(
    (one) => one.filmId === film.id && one.quantity === 'angulation' && one.state === 'known',
  );
  return reading.state === 'known' && measuredHere && film.hand === 'injured';
}
