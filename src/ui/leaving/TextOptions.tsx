import { useId } from 'react';
import type { RecordId } from '../../case/document.ts';
import { Choice, SwitchButton } from '../controls/controls.tsx';
import type { LeavingChoice, LeavingFilm } from './leaving.ts';

interface OptionsProps {
  readonly choice: LeavingChoice;
  readonly onChange: (patch: Partial<LeavingChoice>) => void;
}

export function RecordOptions({
  choice,
  onChange,
  caseName,
  besides,
  chosen,
}: OptionsProps & {
  readonly caseName: string;
  /** Films that may stand beside the one on the plate. */
  readonly besides: readonly LeavingFilm[];
  readonly chosen: RecordId | null;
}) {
  return (
    <>
      <p>
        One page to paste or file: readings with their intervals, limits, cautions, and what was not checked.
        Where there is no room for every film in full, the others stand on a line each, and what is not on the
        page is counted.
      </p>
      <div className="leaving__switches">
        {chosen !== null && (
          <SwitchButton on={choice.withPicture} onChange={(withPicture) => onChange({ withPicture })}>
            Film on the plate
          </SwitchButton>
        )}
        <SwitchButton on={choice.withDay} onChange={(withDay) => onChange({ withDay })}>
          Today’s date
        </SwitchButton>
        {caseName !== '' && (
          <SwitchButton on={choice.withName} onChange={(withName) => onChange({ withName })}>
            Name of the case
          </SwitchButton>
        )}
      </div>
      {chosen !== null && choice.withPicture && besides.length > 0 && (
        <Choice
          label="Beside it"
          options={[
            { value: '', name: 'no other film' },
            ...besides.map(({ id, number }) => ({ value: id as string, name: `Film ${number}` })),
          ]}
          value={choice.beside ?? ''}
          onChange={(id) => onChange({ beside: besides.find((film) => film.id === id)?.id ?? null })}
        />
      )}
      {choice.withName && caseName !== '' && (
        <p className="leaving__warning">
          “{caseName}” will stand on the page. Leave it out if it names somebody.
        </p>
      )}
    </>
  );
}

export function PatientOptions({ choice, onChange }: OptionsProps) {
  const id = useId();
  return (
    <>
      <p>For the patient, in plain words. What may come and when to get help are common practice.</p>
      <Choice
        label="Language"
        options={[
          { value: 'en', name: 'English' },
          { value: 'de', name: 'Deutsch' },
        ]}
        value={choice.language}
        onChange={(language) => onChange({ language })}
      />
      <div className="field">
        <label className="field__label" htmlFor={id}>
          From your clinic (leave empty for lines to write on)
        </label>
        <textarea
          id={id}
          className="field__input leaving__words"
          rows={5}
          value={choice.clinicWords}
          onChange={(event) => onChange({ clinicWords: event.currentTarget.value })}
        />
      </div>
    </>
  );
}

export function NoteOptions() {
  return <p>One paragraph for the patient’s notes. It names nobody: paste it where it belongs.</p>;
}

export function TableOptions({ choice, onChange }: OptionsProps) {
  return (
    <>
      <p>
        Every reading with its unit and definition, for statistics. Cases and films have keys that nobody else
        can trace back.
      </p>
      <Choice
        label="Table"
        options={[
          { value: 'readings', name: 'Readings' },
          { value: 'comparisons', name: 'Limits' },
          { value: 'json', name: 'Both as JSON' },
        ]}
        value={choice.table}
        onChange={(table) => onChange({ table })}
      />
    </>
  );
}

const OBJECT_WORDS = {
  report: 'A structured report of every reading of the case. It is marked as not verified: nobody signs it.',
  presentation:
    'Axes, light and turn of the film on the plate, for a viewer that shows them over the film itself.',
  capture: 'A picture of the film on the plate with its axes and readings, as it is set under “Snapshot”.',
} as const;

export function ObjectOptions({ choice, onChange }: OptionsProps) {
  return (
    <>
      <Choice
        label="Object"
        options={[
          { value: 'report', name: 'Report' },
          { value: 'presentation', name: 'Presentation' },
          { value: 'capture', name: 'Picture' },
        ]}
        value={choice.object}
        onChange={(object) => onChange({ object })}
      />
      <p>{OBJECT_WORDS[choice.object]}</p>
      <Choice
        label="The patient"
        options={[
          { value: 'without', name: 'Left out' },
          { value: 'matching', name: 'Kept for matching' },
        ]}
        value={choice.identity}
        onChange={(identity) => onChange({ identity })}
      />
      {choice.identity === 'matching' ? (
        <p className="leaving__warning">
          <strong>Name, number, birth date and dates go into the file as the film has them.</strong> Only for
          the archive that holds the film. Never for teaching, mail or a case file.
        </p>
      ) : (
        <p>
          Names, numbers and times are left out, dates moved together, identifiers replaced: the same ones in
          every file from this browser.
        </p>
      )}
    </>
  );
}
