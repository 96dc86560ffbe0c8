import { useId, useRef } from 'react';
import type { FilmSet } from '../../classroom/film-set.ts';
import { Choice, PushButton } from '../controls/controls.tsx';

interface SetSheetProps {
  readonly set: FilmSet;
  readonly onOpen: (file: File) => void;
  readonly onMeasure: (index: number) => void;
  /** What whoever makes the set can do besides; null for whoever measures it. */
  readonly making: {
    readonly onSet: (patch: Partial<FilmSet>) => void;
    readonly onSave: () => void;
    /** Puts a film of the set back on the film maker's bench. */
    readonly onChange: (index: number) => void;
  } | null;
}

/** A set of invented films: its title, its films, and the file it is handed out as. */
export function SetSheet({ set, onOpen, onMeasure, making }: SetSheetProps) {
  const file = useRef<HTMLInputElement>(null);
  return (
    <section className="leaf" aria-label="The set">
      <h3>{making !== null || set.title === '' ? 'The set' : set.title}</h3>
      {making === null ? (
        set.note !== '' && <p className="set-note">{set.note}</p>
      ) : (
        <SetFields set={set} onSet={making.onSet} />
      )}
      {set.films.length === 0 ? (
        <p className="aside-note">
          {making === null
            ? 'No set is open. Open the file of one, or make films yourself.'
            : 'No films yet. Add the one on the left, or open the file of a set.'}
        </p>
      ) : (
        <ol className="set-list">
          {set.films.map((film, index) => (
            <li key={film.id} className="set-list__film">
              {making === null ? (
                <span className="set-list__title">
                  {film.title === '' ? `Film ${index + 1}` : film.title}
                </span>
              ) : (
                <input
                  className="text-input"
                  aria-label={`Title of film ${index + 1}`}
                  value={film.title}
                  maxLength={200}
                  onChange={(event) =>
                    making.onSet({ films: set.films.with(index, { ...film, title: event.target.value }) })
                  }
                />
              )}
              <small>
                {film.asked === 'deformity' ? 'deformity' : 'angle'}
                {film.otherHand ? ', with the other hand' : ''}
              </small>
              <span className="set-list__actions">
                <PushButton onPress={() => onMeasure(index)} label={`Measure film ${index + 1}`}>
                  Measure
                </PushButton>
                {making !== null && (
                  <>
                    <PushButton
                      quiet
                      onPress={() => making.onChange(index)}
                      label={`Change film ${index + 1}`}
                    >
                      Change
                    </PushButton>
                    <PushButton
                      quiet
                      onPress={() => making.onSet({ films: set.films.toSpliced(index, 1) })}
                      label={`Remove film ${index + 1} from the set`}
                    >
                      Remove
                    </PushButton>
                  </>
                )}
              </span>
            </li>
          ))}
        </ol>
      )}
      <div className="leaf__actions">
        {making !== null && (
          <PushButton onPress={making.onSave} disabled={set.films.length === 0}>
            Save the set as a file
          </PushButton>
        )}
        <PushButton onPress={() => file.current?.click()}>Open a set</PushButton>
        <input
          ref={file}
          type="file"
          accept=".json,application/json"
          aria-label="File of a set"
          tabIndex={-1}
          className="visually-hidden"
          onChange={(event) => {
            const [chosen] = event.target.files ?? [];
            event.target.value = '';
            if (chosen !== undefined) onOpen(chosen);
          }}
        />
      </div>
      {making !== null && (
        <p className="aside-note">
          The file holds descriptions and numbers, no pictures: about 1.5 kB a film. It opens in any Raybend,
          and whoever reads the file itself finds the truth in it.
        </p>
      )}
    </section>
  );
}

interface SetFieldsProps {
  readonly set: FilmSet;
  readonly onSet: (patch: Partial<FilmSet>) => void;
}

function SetFields({ set, onSet }: SetFieldsProps) {
  const titleId = useId();
  const noteId = useId();
  return (
    <>
      <div className="field">
        <label htmlFor={titleId}>Title</label>
        <input
          id={titleId}
          className="text-input"
          value={set.title}
          maxLength={200}
          onChange={(event) => onSet({ title: event.target.value })}
        />
      </div>
      <div className="field">
        <label htmlFor={noteId}>Note for whoever measures</label>
        <textarea
          id={noteId}
          className="text-input"
          rows={2}
          maxLength={4000}
          value={set.note}
          onChange={(event) => onSet({ note: event.target.value })}
        />
      </div>
      <Choice
        label="Truth before measuring"
        options={[
          { value: 'hidden', name: 'hidden' },
          { value: 'shown', name: 'may be looked at' },
        ]}
        value={set.truth}
        onChange={(truth) => onSet({ truth })}
      />
    </>
  );
}
