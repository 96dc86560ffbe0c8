import type { NextStep } from '../../case/assessment.ts';
import type { FilmRecord } from '../../case/document.ts';
import type { Spacing } from '../../geometry/spacing.ts';
import { VIEWS } from '../../tolerance/anatomy.ts';
import type { BenchActions } from '../actions.ts';
import { Choice, PushButton, WholeNumber } from '../controls/controls.tsx';
import { Line, Section } from './Section.tsx';

const VIEW_NAME = { pa: 'PA', oblique: 'Oblique', lateral: 'Lateral' } as const;
const VIEW_OPTIONS = VIEWS.map((value) => ({ value, name: VIEW_NAME[value] }));

const HAND_OPTIONS = [
  { value: 'injured', name: 'Injured' },
  { value: 'other', name: 'Other' },
] as const;

/** `0.150 mm per pixel`, or both spacings where rows and columns differ. */
function spacingInWords(spacing: Spacing): { readonly value: string; readonly meaning: string } {
  if (spacing.kind === 'ratio')
    return {
      value: 'No scale',
      meaning:
        spacing.origin === 'PixelAspectRatio'
          ? `only the shape of a pixel is stated (${spacing.rowToColumn.toFixed(3)}); lengths are shown as a share of the bone`
          : 'pixels are taken as square; lengths are shown as a share of the bone',
    };
  const { rowSpacingMm, columnSpacingMm } = spacing;
  const value =
    rowSpacingMm === columnSpacingMm
      ? `${columnSpacingMm.toFixed(3)} mm per pixel`
      : `${rowSpacingMm.toFixed(3)} mm per row, ${columnSpacingMm.toFixed(3)} mm per column`;
  return { value, meaning: planeInWords(spacing) };
}

function planeInWords(spacing: Extract<Spacing, { kind: 'millimetres' }>): string {
  switch (spacing.plane) {
    case 'detector':
      return spacing.estimatedMagnification === null
        ? 'at the detector; lengths may read 1–3 % long'
        : `at the detector; the file estimates that the bone is shown ${spacing.estimatedMagnification.toFixed(2)} times its size`;
    case 'patient':
      return spacing.calibrationType === null
        ? 'in the plane of the bone'
        : `calibrated in the file (${spacing.calibrationType.toLowerCase()})`;
    case 'film':
      return 'on the scanned film; magnification is not known';
    case 'not-known':
      return 'the file does not say whether this is at the detector or at the bone';
  }
}

interface FilmSectionProps {
  readonly film: FilmRecord;
  readonly next: NextStep | null;
  readonly actions: BenchActions;
}

export function FilmSection({ film, next, actions }: FilmSectionProps) {
  const spacing = spacingInWords(film.spacing);
  const from = { file: 'view: read from the file', user: 'view: set by you' } as const;
  return (
    <Section title="Film" state={film.viewFrom === null ? 'view not said' : from[film.viewFrom]}>
      <Line name="View" next={next?.line === 'view'}>
        <Choice
          label="View"
          labelHidden
          options={VIEW_OPTIONS}
          value={film.view}
          onChange={(view) => actions.setFilm(film.id, { view, viewFrom: 'user' }, 'set the view')}
        />
      </Line>
      <Line name="Hand and day" note="days since the injury">
        <Choice
          label="Hand on this film"
          labelHidden
          options={HAND_OPTIONS}
          value={film.hand}
          onChange={(hand) => actions.setFilm(film.id, { hand }, 'set the hand of the film')}
        />
        <WholeNumber
          label="Days since the injury"
          value={film.day}
          min={0}
          max={3650}
          onChange={(day) => actions.setFilm(film.id, { day }, 'set the day of the film')}
        />
      </Line>
      <Line
        name={spacing.value}
        note={
          <>
            {spacing.meaning}
            {film.spacing.conflicts.map((sentence) => (
              <span key={sentence} className="line__conflict">
                {sentence}
              </span>
            ))}
          </>
        }
      >
        <PushButton quiet onPress={() => actions.removeFilm(film.id)}>
          Take film out
        </PushButton>
      </Line>
    </Section>
  );
}
