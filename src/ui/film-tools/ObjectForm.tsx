import { useState } from 'react';
import type { FilmRecord } from '../../case/document.ts';
import {
  CONSTRUCTION_FACTS,
  ROLES,
  roleName,
  type ScaleRole,
  type ShapeConstruction,
} from '../../case/roles.ts';
import type { SpacingPlane } from '../../geometry/spacing.ts';
import type { BenchActions } from '../actions.ts';
import { Choice, Pick, PushButton } from '../controls/controls.tsx';
import { PlacingButtons } from '../worksheet/PlacingButtons.tsx';
import { Line } from '../worksheet/Section.tsx';
import type { FilmToolsState } from './film-tools.ts';
import { TextField } from './TextField.tsx';

const shapesOf = (role: ScaleRole) =>
  ROLES[role].constructions.map((value) => ({ value, name: value === 'circle' ? 'Round' : 'Two ends' }));

const HEADINGS: Readonly<
  Record<ScaleRole, { readonly name: string; readonly form: string; readonly why: string }>
> = {
  'scale-object': { name: 'Object of known size', form: 'Scale by an object of known size', why: '' },
  'scale-object-2': {
    name: 'Second known length',
    form: 'Second known length on this film',
    why: 'It must have lain as high as the first. Two give a surer scale, and a wrong one shows. ',
  },
};

const LAY: readonly { readonly value: SpacingPlane; readonly name: string }[] = [
  { value: 'patient', name: 'beside the bone' },
  { value: 'detector', name: 'on the detector' },
  { value: 'not-known', name: 'not known' },
];

interface ObjectFormProps {
  readonly film: FilmRecord;
  readonly tools: FilmToolsState;
  readonly actions: BenchActions;
  readonly role: ScaleRole;
  readonly onDone: () => void;
}

/** Places an object of known size, asks for its size, and makes it the film's scale or a part of it. */
export function ObjectForm({ film, tools, actions, role, onDone }: ObjectFormProps) {
  const { placing } = tools;
  const isFirst = role === 'scale-object';
  const object = isFirst ? tools.object : tools.furtherObject;
  const isPlacing = placing?.role === role;
  const before = film.scale?.from === 'object' ? film.scale : null;
  const [shape, setShape] = useState<ShapeConstruction>(
    object?.shape.construction ?? ROLES[role].constructions[0],
  );
  const [size, setSize] = useState((isFirst ? before?.typed : before?.further?.typed) ?? '');
  const [giveOrTake, setGiveOrTake] = useState('');
  const [plane, setPlane] = useState<SpacingPlane>(before?.plane ?? 'patient');
  const [wrong, setWrong] = useState<string | null>(null);
  const use = async () => {
    const sentence = await (isFirst
      ? tools.actions.setScale(size, giveOrTake, plane)
      : tools.actions.addKnownLength(size, giveOrTake));
    setWrong(sentence);
    if (sentence === null) onDone();
  };
  return (
    <fieldset className="film-tools__scale" aria-label={HEADINGS[role].form}>
      <div className="film-tools__wide">
        <Line
          name={HEADINGS[role].name}
          note={
            isPlacing ? placing.instruction : `${HEADINGS[role].why}${CONSTRUCTION_FACTS[shape]?.how ?? ''}`
          }
        >
          {isPlacing ? (
            <PlacingButtons canStepBack={placing.canStepBack} actions={actions} />
          ) : (
            <>
              <Choice
                label="Shape of the object"
                labelHidden
                options={shapesOf(role)}
                value={shape}
                onChange={setShape}
              />
              <PushButton
                next={object === null}
                label={`${object === null ? 'Place' : 'Place again:'} ${roleName(role)}`}
                onPress={() => actions.place(role, shape)}
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
            onEnter={() => void use()}
          />
          <TextField
            label="Give or take (empty: exact)"
            example="0.1 mm"
            value={giveOrTake}
            onChange={setGiveOrTake}
            onEnter={() => void use()}
          />
          <div className="film-tools__wide">
            <Line
              name={isFirst ? 'Where it lay' : 'Its part in the scale'}
              note={
                isFirst
                  ? 'A scale holds at the height of its object.'
                  : 'Each length counts by how surely it is known.'
              }
            >
              {isFirst && (
                <Pick
                  label="Where the object lay"
                  labelHidden
                  options={LAY}
                  value={plane}
                  onChange={setPlane}
                />
              )}
              <PushButton next onPress={() => void use()}>
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
