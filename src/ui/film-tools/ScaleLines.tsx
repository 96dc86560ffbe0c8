import { useState } from 'react';
import type { FilmRecord } from '../../case/document.ts';
import { CONSTRUCTION_FACTS, ROLES } from '../../case/roles.ts';
import type { SpacingPlane } from '../../geometry/spacing.ts';
import type { BenchActions } from '../actions.ts';
import { Choice, Pick, PushButton } from '../controls/controls.tsx';
import { Line } from '../worksheet/Section.tsx';
import type { FilmToolsState } from './film-tools.ts';
import { spacingInWords } from './spacing-words.ts';
import { TextField } from './TextField.tsx';

interface ScaleLinesProps {
  readonly film: FilmRecord;
  readonly tools: FilmToolsState | null;
  readonly actions: BenchActions;
}

/** The scale of the film: what the file says, what the user made of it, and how to set it by an object. */
export function ScaleLines({ film, tools, actions }: ScaleLinesProps) {
  const [opened, setOpened] = useState(false);
  const words = spacingInWords(film);
  const { spacing } = film;
  const isPlacing = tools?.placing?.role === 'scale-object';
  const open = tools !== null && (opened || isPlacing);
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
          <PushButton onPress={() => setOpened(!open)}>{open ? 'Done' : 'Set the scale'}</PushButton>
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
      {open && tools !== null && (
        <ObjectForm
          film={film}
          tools={tools}
          actions={actions}
          isPlacing={isPlacing}
          onDone={() => setOpened(false)}
        />
      )}
    </>
  );
}

const inFile = ({ scale, shows }: FilmRecord): string => {
  const { value } = spacingInWords({ spacing: scale!.inFile, shows });
  return value.charAt(0).toLowerCase() + value.slice(1);
};

const SHAPES = ROLES['scale-object'].constructions.map((value) => ({
  value,
  name: value === 'circle' ? 'Round' : 'Two ends',
}));

const LAY: readonly { readonly value: SpacingPlane; readonly name: string }[] = [
  { value: 'patient', name: 'beside the bone' },
  { value: 'detector', name: 'on the detector' },
  { value: 'not-known', name: 'not known' },
];

interface ObjectFormProps {
  readonly film: FilmRecord;
  readonly tools: FilmToolsState;
  readonly actions: BenchActions;
  readonly isPlacing: boolean;
  readonly onDone: () => void;
}

function ObjectForm({ film, tools, actions, isPlacing, onDone }: ObjectFormProps) {
  const { object, placing } = tools;
  const before = film.scale?.from === 'object' ? film.scale : null;
  const [shape, setShape] = useState<(typeof SHAPES)[number]['value']>(
    object?.shape.construction ?? ROLES['scale-object'].constructions[0],
  );
  const [size, setSize] = useState(before?.typed ?? '');
  const [giveOrTake, setGiveOrTake] = useState('');
  const [plane, setPlane] = useState<SpacingPlane>(before?.plane ?? 'patient');
  const [wrong, setWrong] = useState<string | null>(null);
  return (
    <fieldset className="film-tools__scale" aria-label="Scale by an object of known size">
      <div className="film-tools__wide">
        <Line
          name="Object of known size"
          note={isPlacing ? placing?.instruction : (CONSTRUCTION_FACTS[shape]?.how ?? '')}
        >
          {isPlacing ? (
            <>
              {placing?.canStepBack && (
                <PushButton quiet onPress={actions.stepBackPlacing}>
                  Last point back
                </PushButton>
              )}
              <PushButton onPress={actions.stopPlacing}>Stop</PushButton>
            </>
          ) : (
            <>
              <Choice
                label="Shape of the object"
                labelHidden
                options={SHAPES}
                value={shape}
                onChange={setShape}
              />
              <PushButton
                next={object === null}
                label={`${object === null ? 'Place' : 'Place again:'} object of known size`}
                onPress={() => actions.place('scale-object', shape)}
              >
                {object === null ? 'Place' : 'Again'}
              </PushButton>
            </>
          )}
        </Line>
      </div>
      {object !== null && !isPlacing && (
        <>
          <TextField
            label={object.shape.construction === 'circle' ? 'Its diameter' : 'Its length'}
            example="24 mm"
            value={size}
            onChange={setSize}
            wrong={wrong}
          />
          <TextField
            label="Give or take (empty: exact)"
            example="0.1 mm"
            value={giveOrTake}
            onChange={setGiveOrTake}
          />
          <div className="film-tools__wide">
            <Line name="Where it lay" note="A scale holds at the height of its object.">
              <Pick
                label="Where the object lay"
                labelHidden
                options={LAY}
                value={plane}
                onChange={setPlane}
              />
              <PushButton
                next
                onPress={() =>
                  void tools.actions.setScale(size, giveOrTake, plane).then((sentence) => {
                    setWrong(sentence);
                    if (sentence === null) onDone();
                  })
                }
              >
                Use it
              </PushButton>
            </Line>
            <PushButton quiet onPress={() => actions.removeMark(object.id)}>
              Remove the object
            </PushButton>
          </div>
        </>
      )}
    </fieldset>
  );
}
