import { useId, useState } from 'react';
import { LEVEL_FACTS, LEVELS, type Level } from '../../classroom/levels.ts';
import type { Rater } from '../../classroom/study.ts';
import { CONSTRUCTION_WORDS } from '../../tolerance/limit-method.ts';
import { Choice, PushButton } from '../controls/controls.tsx';

/** What a new study is made of. */
export interface StudyPlan {
  readonly title: string;
  readonly raters: readonly Rater[];
  readonly rounds: number;
  readonly films: { readonly from: 'set' } | { readonly from: Level; readonly count: number };
}

interface StudySetupProps {
  /** Films in the open set. */
  readonly filmsInSet: number;
  readonly onBegin: (plan: StudyPlan) => void;
}

type Kind = 'raters' | 'repeats' | 'methods';

/** How many it takes to compare, and what to do where there are fewer. */
const NEEDED: Readonly<Record<Kind, { readonly raters: number; readonly lacks: string }>> = {
  raters: { raters: 2, lacks: 'Give two raters a label each.' },
  repeats: { raters: 1, lacks: 'Give the rater a label.' },
  methods: { raters: 2, lacks: 'Choose two methods that differ.' },
};

/** Methods that can be set against each other: both axes drawn one way or the other. */
const METHODS = ['canal', 'dorsal-cortex', 'cortex-pair', 'free'] as const;

/** Who or what is to be compared, on which films. */
export function StudySetup({ filmsInSet, onBegin }: StudySetupProps) {
  const [title, setTitle] = useState('');
  const [kind, setKind] = useState<Kind>('raters');
  const [labels, setLabels] = useState('A, B');
  const [label, setLabel] = useState('A');
  const [rounds, setRounds] = useState('2');
  const [one, setOne] = useState<(typeof METHODS)[number]>('canal');
  const [other, setOther] = useState<(typeof METHODS)[number]>('dorsal-cortex');
  const [from, setFrom] = useState<'set' | Level>(filmsInSet > 0 ? 'set' : 'everyday');
  const [count, setCount] = useState('10');
  const titleId = useId();
  const labelId = useId();
  const roundId = useId();
  const countId = useId();

  const named = kind === 'repeats' ? [label] : labels.split(',');
  const raters: readonly Rater[] =
    kind === 'methods'
      ? [...new Set([one, other])].map((axes) => ({ label: METHOD_NAMES[axes], axes }))
      : [...new Set(named.map((name) => name.trim().slice(0, 60)))]
          .filter((name) => name !== '')
          .map((name) => ({ label: name, axes: null }));
  const films = from === 'set' ? filmsInSet : Number(count);
  const roundsWanted = Number(rounds);
  const fewestRounds = kind === 'repeats' ? 2 : 1;
  const lacks =
    raters.length < NEEDED[kind].raters
      ? NEEDED[kind].lacks
      : !(Number.isInteger(films) && films >= 1 && films <= 200)
        ? 'Choose between 1 and 200 films.'
        : !(Number.isInteger(roundsWanted) && roundsWanted >= fewestRounds && roundsWanted <= 10)
          ? `Choose between ${fewestRounds} and 10 rounds.`
          : null;

  return (
    <section className="leaf" aria-label="A new study">
      <h3>A new study</h3>
      <div className="field">
        <label htmlFor={titleId}>Title</label>
        <input
          id={titleId}
          className="text-input"
          value={title}
          maxLength={200}
          onChange={(e) => setTitle(e.target.value)}
        />
      </div>
      <Choice
        label="Compared are"
        options={[
          { value: 'raters', name: 'several raters' },
          { value: 'repeats', name: 'one rater, again' },
          { value: 'methods', name: 'two methods' },
        ]}
        value={kind}
        onChange={setKind}
      />
      {kind === 'methods' ? (
        <>
          <Choice
            label="One"
            options={METHODS.map((value) => ({ value, name: METHOD_NAMES[value] }))}
            value={one}
            onChange={setOne}
          />
          <Choice
            label="Other"
            options={METHODS.map((value) => ({ value, name: METHOD_NAMES[value] }))}
            value={other}
            onChange={setOther}
          />
          <p className="aside-note">
            Both axes are then drawn by {CONSTRUCTION_WORDS[one]} or by {CONSTRUCTION_WORDS[other]}.
          </p>
        </>
      ) : (
        <div className="field">
          <label htmlFor={labelId}>
            {kind === 'raters'
              ? 'Labels of the raters, with commas between; no names'
              : 'Label of the rater; no name'}
          </label>
          <input
            id={labelId}
            className="text-input"
            value={kind === 'raters' ? labels : label}
            maxLength={kind === 'raters' ? 600 : 60}
            onChange={(e) => (kind === 'raters' ? setLabels : setLabel)(e.target.value)}
          />
        </div>
      )}
      <div className="field field--short">
        <label htmlFor={roundId}>Rounds</label>
        <input
          id={roundId}
          className="text-input"
          inputMode="numeric"
          value={rounds}
          onChange={(e) => setRounds(e.target.value)}
        />
      </div>
      <Choice
        label="Films"
        options={[
          ...(filmsInSet > 0 ? [{ value: 'set' as const, name: `the set (${filmsInSet})` }] : []),
          ...LEVELS.map((value) => ({ value, name: LEVEL_FACTS[value].name })),
        ]}
        value={from}
        onChange={setFrom}
      />
      {from !== 'set' && (
        <div className="field field--short">
          <label htmlFor={countId}>How many</label>
          <input
            id={countId}
            className="text-input"
            inputMode="numeric"
            value={count}
            onChange={(e) => setCount(e.target.value)}
          />
        </div>
      )}
      <div className="leaf__actions">
        <PushButton
          next
          disabled={lacks !== null}
          onPress={() =>
            onBegin({
              title,
              raters,
              rounds: roundsWanted,
              films: from === 'set' ? { from } : { from, count: films },
            })
          }
        >
          Begin the study
        </PushButton>
      </div>
      {lacks !== null && <p className="aside-note">{lacks}</p>}
    </section>
  );
}

const METHOD_NAMES = {
  canal: 'canal',
  'dorsal-cortex': 'dorsal cortex',
  'cortex-pair': 'outer cortices',
  free: 'free line',
} as const;
