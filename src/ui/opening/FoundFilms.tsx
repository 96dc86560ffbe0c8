import { PushButton } from '../controls/controls.tsx';
import { WholeNumber } from '../controls/WholeNumber.tsx';
import type { Found, FoundActions, FoundFilm, LeftOut } from './found.ts';
import { Sheet } from './Sheet.tsx';

const count = (number: number, one: string, many: string) => `${number} ${number === 1 ? one : many}`;

/** Which of the films that were found are to be added, and why the other files are not offered. */
export function FoundFilms({ found, actions }: { found: Found; actions: FoundActions }) {
  const { films, leftOut, looked, of, adding } = found;
  const looking = looked < of;
  const chosen = films.filter((film) => film.chosen).length;
  const free = films.filter((film) => !film.inCase);
  return (
    <Sheet
      title={films.length === 0 && !looking ? 'No film to add' : 'Films found'}
      onClose={actions.close}
      foot={
        <>
          {films.length > 0 && (
            <PushButton next disabled={looking || adding !== null || chosen === 0} onPress={actions.add}>
              {chosen === 0 ? 'Add films' : `Add ${count(chosen, 'film', 'films')}`}
            </PushButton>
          )}
          {free.length > 1 && adding === null && (
            <PushButton quiet onPress={() => actions.chooseAll(chosen < free.length)}>
              {chosen < free.length ? 'Choose all' : 'Choose none'}
            </PushButton>
          )}
          {adding === null && (
            <PushButton onPress={actions.close}>{films.length > 0 ? 'Add none' : 'Close'}</PushButton>
          )}
        </>
      }
    >
      <p role="status" className="aside-note">
        {adding !== null
          ? `Adding ${count(chosen, 'film', 'films')} to the case: ${adding} read.`
          : looking
            ? `Looking through ${count(of, 'file', 'files')}: ${looked} done, ${count(films.length, 'film', 'films')} found.`
            : `${count(films.length, 'film', 'films')} found in ${count(of, 'file', 'files')}.`}
      </p>
      {found.patientsDiffer && (
        <p className="caution found__question">
          <b>These films name different patients.</b> Are they all of one person? Add only films that are; the
          names themselves are not shown and not kept.
        </p>
      )}
      {films.length > 0 && (
        <ul className="found__films" aria-label="Films">
          {films.map((film) => (
            <Row key={film.id} film={film} actions={actions} />
          ))}
        </ul>
      )}
      {leftOut.length > 0 && <Others leftOut={leftOut} open={films.length === 0} />}
    </Sheet>
  );
}

function Row({ film, actions }: { film: FoundFilm; actions: FoundActions }) {
  return (
    <li className="found__film">
      <label className="found__choice">
        <input
          type="checkbox"
          checked={film.chosen}
          disabled={film.inCase}
          onChange={(event) => actions.choose(film.id, event.currentTarget.checked)}
        />
        <img src={film.thumbnail} alt="" />
        <span className="found__words">
          <span className="found__name">{film.name}</span>
          <small>
            {film.kind}
            {film.stated === null ? '' : ` · ${film.stated}`}
          </small>
          {film.patient !== null && <small className="found__patient">{film.patient}</small>}
          {film.inCase && <small>already in this case</small>}
        </span>
      </label>
      {film.frames > 1 && (
        <div className="found__frame">
          <WholeNumber
            label={`Picture of ${film.name}, 1 to ${film.frames}`}
            value={film.frame + 1}
            min={1}
            max={film.frames}
            onChange={(number) => number !== null && actions.setFrame(film.id, number - 1)}
          />
          <small>of {film.frames} pictures</small>
        </div>
      )}
    </li>
  );
}

function Others({ leftOut, open }: { leftOut: readonly LeftOut[]; open: boolean }) {
  return (
    <details className="more" open={open}>
      <summary>{count(leftOut.length, 'file', 'files')} left out, and why</summary>
      <ul className="found__others">
        {leftOut.map(({ name, reason }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two files can have one name, and the list only grows
          <li key={`${index} ${name}`}>{reason}</li>
        ))}
      </ul>
    </details>
  );
}
