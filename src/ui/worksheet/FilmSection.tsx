import type { NextStep } from '../../case/assessment.ts';
import type { FilmRecord } from '../../case/document.ts';
import { turnOf } from '../../case/readings/spatial.ts';
import type { Spacing } from '../../geometry/spacing.ts';
import { VIEWS } from '../../tolerance/anatomy.ts';
import type { BenchActions } from '../actions.ts';
import { Choice, PushButton, WholeNumber } from '../controls/controls.tsx';
import { HelpMark } from '../help/HelpPanel.tsx';
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
      {film.hand === 'injured' && film.view !== null && <TurnLine film={film} actions={actions} />}
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

/** How far the hand was turned for the film: what an angle in space needs. An oblique asks for it openly. */
function TurnLine({ film, actions }: { film: FilmRecord; actions: BenchActions }) {
  const turn = turnOf(film);
  const set = (value: number | null) => {
    const { turnDegrees: _dropped, ...rest } = film;
    actions.replaceFilm(value === null ? rest : { ...rest, turnDegrees: value }, 'set the turn of the hand');
  };
  const line = (
    <Line name="Degrees from PA" note="0 PA, 90 lateral; less is a pronated oblique, more a supinated one">
      <WholeNumber
        label="Degrees that the hand was turned from the PA position"
        value={film.turnDegrees ?? null}
        min={0}
        max={180}
        onChange={set}
      />
      <HelpMark page="spatial-angle" of="the angle in space" />
    </Line>
  );
  const said =
    film.turnDegrees === undefined
      ? turn === null
        ? 'not said'
        : `${turn}°, as the view says`
      : `${film.turnDegrees}° from PA`;
  return (
    <details className="more">
      <summary>Turn of the hand: {said}</summary>
      {line}
    </details>
  );
}
