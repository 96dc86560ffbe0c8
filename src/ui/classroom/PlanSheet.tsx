import { useState } from 'react';
import { pairsForAgreement, subjectsForIcc } from '../../geometry/statistics/sample-size.ts';
import { planLacks } from './study-words.ts';

/** How many films a study needs, by what one wants to know from it. */
export function PlanSheet() {
  const [expected, setExpected] = useState('0.8');
  const [raters, setRaters] = useState('2');
  const [width, setWidth] = useState('0.2');
  const [half, setHalf] = useState('0.5');
  const icc = subjectsForIcc(Number(expected), Number(raters), Number(width));
  const pairs = pairsForAgreement(Number(half));
  return (
    <section className="leaf" aria-label="How many films">
      <h3>How many films</h3>
      <div className="plan">
        <NumberLine label="Correlation expected" value={expected} onChange={setExpected} />
        <NumberLine label="Raters" value={raters} onChange={setRaters} />
        <NumberLine label="Width of its 95 % interval wanted" value={width} onChange={setWidth} />
      </div>
      <p role="status">{icc.ok ? `${icc.value} films, after Bonett 2002.` : planLacks(icc.error)}</p>
      <div className="plan">
        <NumberLine
          label="Limits of agreement to within, as a share of the SD of the differences"
          value={half}
          onChange={setHalf}
        />
      </div>
      <p role="status">
        {pairs.ok
          ? `${pairs.value} films measured by both, after Bland and Altman 1986.`
          : planLacks(pairs.error)}
      </p>
    </section>
  );
}

interface NumberLineProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

const NumberLine = ({ label, value, onChange }: NumberLineProps) => (
  <label className="plan__line">
    <span>{label}</span>
    <input
      className="text-input plan__number"
      inputMode="decimal"
      value={value}
      onChange={(event) => onChange(event.target.value.replace(',', '.'))}
    />
  </label>
);
