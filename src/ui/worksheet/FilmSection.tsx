import { memo } from 'react';
import type { NextStep } from '../../case/assessment.ts';
import type { FilmRecord, Subject } from '../../case/document.ts';
import { fingerName, fingerOn } from '../../case/finger.ts';
import { turnOf } from '../../case/readings/spatial.ts';
import { RAYS, type Ray, VIEWS } from '../../tolerance/anatomy.ts';
import type { BenchActions } from '../actions.ts';
import { Choice, Pick } from '../controls/controls.tsx';
import { WholeNumber } from '../controls/WholeNumber.tsx';
import { FilmTools } from '../film-tools/FilmTools.tsx';
import { HelpMark } from '../help/HelpMark.tsx';
import { Line, Section } from './Section.tsx';

const VIEW_NAME = { pa: 'PA', oblique: 'Oblique', lateral: 'Lateral' } as const;
const VIEW_OPTIONS = VIEWS.map((value) => ({ value, name: VIEW_NAME[value] }));

const SUBJECT_OPTIONS = [
  { value: 'bones', name: 'Radiograph' },
  { value: 'fist', name: 'Photograph of the fist' },
] as const satisfies readonly { readonly value: Subject; readonly name: string }[];

const HAND_OPTIONS = [
  { value: 'injured', name: 'Injured' },
  { value: 'other', name: 'Other' },
] as const;

const FINGER_OPTIONS = RAYS.map((value) => ({ value, name: fingerName(value) }));

interface FilmSectionProps {
  readonly film: FilmRecord;
  /** The broken finger; null: not chosen. */
  readonly broken: Ray | null;
  readonly next: NextStep | null;
  readonly actions: BenchActions;
}

export const FilmSection = memo(function FilmSection({ film, broken, next, actions }: FilmSectionProps) {
  const from = { file: 'view: read from the file', user: 'view: set by you' } as const;
  const isFist = film.shows === 'fist';
  const state = isFist ? 'no radiograph' : film.viewFrom === null ? 'view not said' : from[film.viewFrom];
  return (
    <Section title="Film" state={state}>
      {(film.format !== 'dicom' || isFist) && (
        <Line name="Picture">
          <Choice
            label="What the picture shows"
            labelHidden
            options={SUBJECT_OPTIONS}
            value={film.shows}
            onChange={(shows) => actions.replaceFilm(showing(film, shows), 'say what the picture shows')}
          />
        </Line>
      )}
      {!isFist && (
        <Line name="View" next={next?.line === 'view'}>
          <Choice
            label="View"
            labelHidden
            options={VIEW_OPTIONS}
            value={film.view}
            onChange={(view) => actions.setFilm(film.id, { view, viewFrom: 'user' }, 'set the view')}
          />
        </Line>
      )}
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
      {film.hand === 'other' && broken !== null && (
        <Line name="Finger measured" note="the broken one, unless you say another">
          <Pick
            label="Finger measured on this film"
            labelHidden
            options={FINGER_OPTIONS}
            value={fingerOn(film, { ray: broken })}
            onChange={(ray) =>
              actions.replaceFilm(measuring(film, ray, broken), 'say which finger is measured')
            }
          />
        </Line>
      )}
      {!isFist && film.hand === 'injured' && film.view !== null && <TurnLine film={film} actions={actions} />}
      <FilmTools film={film} actions={actions} />
    </Section>
  );
});

/** The broken finger goes without saying, so that it follows when another one is chosen. */
function measuring(film: FilmRecord, ray: Ray, broken: Ray): FilmRecord {
  const { ray: _dropped, ...rest } = film;
  return ray === broken ? rest : { ...rest, ray };
}

/** A photograph of the fist has neither a view nor a turn of the hand. */
function showing(film: FilmRecord, shows: Subject): FilmRecord {
  if (shows === 'bones') return { ...film, shows };
  const { turnDegrees: _dropped, ...rest } = film;
  return { ...rest, shows, view: null, viewFrom: null };
}

/** How far the hand was turned for the film, from PA: what an angle in space needs. Folded to what is said of it. */
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
