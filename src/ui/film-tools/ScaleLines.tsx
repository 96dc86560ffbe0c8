import { useState } from 'react';
import type { FilmRecord } from '../../case/document.ts';
import { SCALE_ROLES, type ScaleRole } from '../../case/roles.ts';
import type { BenchActions } from '../actions.ts';
import { PushButton } from '../controls/controls.tsx';
import { Line } from '../worksheet/Section.tsx';
import type { FilmToolsState } from './film-tools.ts';
import { ObjectForm } from './ObjectForm.tsx';
import { spacingInWords } from './spacing-words.ts';

interface ScaleLinesProps {
  readonly film: FilmRecord;
  readonly tools: FilmToolsState | null;
  readonly actions: BenchActions;
}

/** The scale of the film: what the file says, what the user made of it, and how to set it by an object. */
export function ScaleLines({ film, tools, actions }: ScaleLinesProps) {
  const [opened, setOpened] = useState<ScaleRole | null>(null);
  const words = spacingInWords(film);
  const { spacing } = film;
  const placing = SCALE_ROLES.find((role) => role === tools?.placing?.role) ?? null;
  const further = film.scale?.from === 'object' ? film.scale.further : undefined;
  // One that is placed can be removed here, also after the first has gone.
  const mayAdd = film.scale?.from === 'object' || (tools?.furtherObject ?? null) !== null;
  const asked = placing ?? opened;
  // A second length needs a first one.
  const open = asked === 'scale-object-2' && !mayAdd ? null : asked;
  const factor = spacing.kind === 'millimetres' ? spacing.estimatedMagnification : null;
  return (
    <>
      <Line
        name={words.value}
        note={
          <>
            {words.meaning}
            {spacing.conflicts.map((sentence) => (
              <span key={sentence} className="line__conflict">
                {sentence}
              </span>
            ))}
          </>
        }
      >
        {tools !== null && (
          <PushButton onPress={() => setOpened(open === null ? 'scale-object' : null)}>
            {open === null ? 'Set the scale' : 'Done'}
          </PushButton>
        )}
      </Line>
      {tools !== null && factor !== null && film.scale === undefined && (
        <div className="film-tools__offer">
          <Line
            name="Divide by the magnification?"
            note={`The file estimates ${factor.toFixed(2)}. Divided by it, the scale holds at the bone, to 0.01 either way.`}
          >
            <PushButton onPress={tools.actions.divideByMagnification}>
              {`Divide by ${factor.toFixed(2)}`}
            </PushButton>
          </Line>
        </div>
      )}
      {tools !== null && film.scale !== undefined && (
        <Line name="Set by you" note={`The file says: ${inFile(film)}.`}>
          <PushButton quiet onPress={tools.actions.useFilesScale}>
            Back to the file’s
          </PushButton>
        </Line>
      )}
      {tools !== null && mayAdd && open === null && (
        <Line name="Another known length" note="It makes the scale surer, and shows a wrong one.">
          <PushButton
            quiet
            label={`${further === undefined ? 'Add' : 'Change'} another known length`}
            onPress={() => setOpened('scale-object-2')}
          >
            {further === undefined ? 'Add' : 'Change'}
          </PushButton>
        </Line>
      )}
      {open !== null && tools !== null && (
        <ObjectForm
          key={open}
          role={open}
          film={film}
          tools={tools}
          actions={actions}
          onDone={() => setOpened(null)}
        />
      )}
    </>
  );
}

const inFile = ({ scale, shows }: FilmRecord): string => {
  const { value } = spacingInWords({ spacing: scale!.inFile, shows });
  return value.charAt(0).toLowerCase() + value.slice(1);
};
