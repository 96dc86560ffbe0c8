import { useId, useRef } from 'react';
import type { FilmSet } from '../../classroom/film-set.ts';
import { Choice, PushButton } from '../controls/controls.tsx';

interface SetSheetProps {
  readonly set: FilmSet;
  readonly onSet: (patch: Partial<FilmSet>) => void;
  readonly onSave: () => void;
  readonly onOpen: (file: File) => void;
  readonly onMeasure: (index: number) => void;
  /** Puts a film of the set back on the film maker's bench. Absent where there is none. */
  readonly onChange?: (index: number) => void;
}

/** A set of invented films: its title, its films, and the file it is handed out as. */
export function SetSheet({ set, onSet, onSave, onOpen, onMeasure, onChange }: SetSheetProps) {
  const titleId = useId();
  const noteId = useId();
  const file = useRef<HTMLInputElement>(null);
  return (
    <section className="leaf" aria-label="The set">
      <h3>The set</h3>
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
      {set.films.length === 0 ? (
        <p className="aside-note">No films yet. Add the one on the left, or open the file of a set.</p>
      ) : (
        <ol className="set-list">
          {set.films.map((film, index) => (
            <li key={film.id} className="set-list__film">
              <input
                className="text-input"
                aria-label={`Title of film ${index + 1}`}
                value={film.title}
                maxLength={200}
                onChange={(event) =>
                  onSet({ films: set.films.with(index, { ...film, title: event.target.value }) })
                }
              />
              <small>
                {film.asked === 'deformity' ? 'deformity' : 'angle'}
                {film.otherHand ? ', with the other hand' : ''}
              </small>
              <span className="set-list__actions">
                <PushButton onPress={() => onMeasure(index)} label={`Measure film ${index + 1}`}>
                  Measure
                </PushButton>
                {onChange !== undefined && (
                  <PushButton quiet onPress={() => onChange(index)} label={`Change film ${index + 1}`}>
                    Change
                  </PushButton>
                )}
                <PushButton
                  quiet
                  onPress={() => onSet({ films: set.films.toSpliced(index, 1) })}
                  label={`Take film ${index + 1} out of the set`}
                >
                  Remove
                </PushButton>
              </span>
            </li>
          ))}
        </ol>
      )}
      <div className="leaf__actions">
        <PushButton onPress={onSave} disabled={set.films.length === 0}>
          Save the set as a file
        </PushButton>
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
      <p className="aside-note">
        The file holds descriptions and numbers, no pictures: about 1.5 kB a film. It opens in any Raybend,
        and whoever reads the file itself finds the truth in it.
      </p>
    </section>
  );
}
