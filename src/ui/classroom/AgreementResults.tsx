import { useMemo, useState } from 'react';
import { inDegrees, withSign } from '../../classroom/reveal-words.ts';
import {
  type AgreementStudy,
  agreementStudy,
  errorsAgainstTruth,
  type PairAgreement,
  type RatedReading,
} from '../../geometry/statistics/agreement-study.ts';
import { proportionSentence } from '../../geometry/statistics/proportional-difference.ts';
import type { Repeatability } from '../../geometry/statistics/repeatability.ts';
import { Pick } from '../controls/controls.tsx';
import { BlandAltmanPlot } from './BlandAltmanPlot.tsx';
import { CorrelationSection } from './CorrelationSection.tsx';
import { FilmPlot, SignLegend } from './FilmPlot.tsx';
import { agreementLacks, signed } from './study-words.ts';

interface AgreementResultsProps {
  readonly readings: readonly RatedReading[];
  /** Of the subjects of which it is known. */
  readonly truth: ReadonlyMap<string, number>;
}

/** All that a study tells: correlations, spread, agreement two by two, and errors against the truth. */
export function AgreementResults({ readings, truth }: AgreementResultsProps) {
  const study = useMemo(() => agreementStudy(readings), [readings]);
  return (
    <div className="results">
      <FilmSection study={study} truth={truth} />
      <SpreadSection study={study} />
      <PairSection study={study} />
      <CorrelationSection study={study} />
      {truth.size > 0 && <TruthSection readings={readings} truth={truth} />}
      <p className="aside-note">
        Confidence limits are of 95 %. A correlation describes these films: the same error gives a lower one
        where films differ little, so the degrees stand beside it. What is good enough is not a matter of
        statistics.
      </p>
    </div>
  );
}

function FilmSection({
  study,
  truth,
}: {
  readonly study: AgreementStudy;
  readonly truth: ReadonlyMap<string, number>;
}) {
  return (
    <section aria-label="Film by film">
      <h3>Film by film</h3>
      <SignLegend labels={study.columns.map(({ label }) => label)} truth={truth.size > 0} />
      <FilmPlot study={study} truth={truth} />
      <details>
        <summary>The same as a table</summary>
        <table className="table">
          <thead>
            <tr>
              <th scope="col">Film</th>
              {study.columns.map(({ label }) => (
                <th key={label} scope="col">
                  {label}
                </th>
              ))}
              {truth.size > 0 && <th scope="col">Truth</th>}
            </tr>
          </thead>
          <tbody>
            {study.subjects.map((subject, row) => {
              const known = truth.get(subject);
              return (
                <tr key={subject}>
                  <th scope="row">{subject}</th>
                  {study.columns.map(({ label, values }) => {
                    const value = values[row] ?? null;
                    return <td key={label}>{value === null ? 'not measured' : inDegrees(value)}</td>;
                  })}
                  {truth.size > 0 && <td>{known === undefined ? 'not known' : inDegrees(known)}</td>}
                </tr>
              );
            })}
          </tbody>
        </table>
      </details>
    </section>
  );
}

function SpreadSection({ study }: { readonly study: AgreementStudy }) {
  const lines: readonly (readonly [name: string, found: Repeatability | null])[] = [
    ...study.repeats.map(
      ({ rater, found }) => [`Repeats of ${rater}`, found.ok ? found.value : null] as const,
    ),
    ...(study.repeats.length > 1
      ? [['Repeats of all, pooled', study.pooledRepeats.ok ? study.pooledRepeats.value : null] as const]
      : []),
    ...(study.columns.length > 1
      ? [['Across columns', study.acrossColumns.ok ? study.acrossColumns.value : null] as const]
      : []),
  ];
  if (lines.length === 0) return null;
  return (
    <section aria-label="Spread in degrees">
      <h3>Spread in degrees</h3>
      <table className="table">
        <caption>Within-subject SD, and the difference that two readings stay below 19 times in 20</caption>
        <thead>
          <tr>
            <th scope="col">Of what</th>
            <th scope="col">
              Within-subject SD s<sub>w</sub>
            </th>
            <th scope="col">95 % limits</th>
            <th scope="col">Repeatability</th>
            <th scope="col">Degrees of freedom</th>
          </tr>
        </thead>
        <tbody>
          {lines.map(([name, found]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {found === null ? (
                <td colSpan={4}>no film was measured twice</td>
              ) : (
                <>
                  <td>{found.withinSubjectSd.toFixed(2)}°</td>
                  <td>
                    {found.limits.low.toFixed(2)}–{found.limits.high.toFixed(2)}°
                  </td>
                  <td>{found.repeatability.toFixed(1)}°</td>
                  <td>{found.degreesOfFreedom}</td>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const pairName = ({ first, second }: PairAgreement): string => `${first} and ${second}`;

function PairSection({ study }: { readonly study: AgreementStudy }) {
  const [chosen, setChosen] = useState('0');
  const pair = study.pairs[Number(chosen)] ?? study.pairs[0];
  if (pair === undefined) return null;
  return (
    <section aria-label="Limits of agreement">
      <h3>Limits of agreement</h3>
      {study.pairs.length > 1 && (
        <Pick
          label="Which two"
          options={study.pairs.map((one, index) => ({ value: String(index), name: pairName(one) }))}
          value={String(study.pairs.indexOf(pair))}
          onChange={setChosen}
        />
      )}
      {pair.limits.ok ? (
        <>
          <BlandAltmanPlot pair={pair} limits={pair.limits.value} />
          <table className="table">
            <caption>
              {pair.first} − {pair.second}, {pair.limits.value.pairs} films, SD of the differences{' '}
              {pair.limits.value.sd.toFixed(2)}°
            </caption>
            <thead>
              <tr>
                <th scope="col">What</th>
                <th scope="col">Value</th>
                <th scope="col">95 % limits</th>
              </tr>
            </thead>
            <tbody>
              {(
                [
                  ['Mean difference', pair.limits.value.meanDifference],
                  ['Lower limit of agreement', pair.limits.value.lower],
                  ['Upper limit of agreement', pair.limits.value.upper],
                ] as const
              ).map(([name, { value, interval }]) => (
                <tr key={name}>
                  <th scope="row">{name}</th>
                  <td>{signed(value)}°</td>
                  <td>
                    {signed(interval.low)} to {signed(interval.high)}°
                  </td>
                </tr>
              ))}
              {pair.trend.ok && (
                <tr>
                  <th scope="row">Growth of the difference with the angle</th>
                  <td>{signed(pair.trend.value.slope)} degrees per degree</td>
                  <td>p = {pair.trend.value.slopeProbability.toFixed(3)}</td>
                </tr>
              )}
            </tbody>
          </table>
        </>
      ) : (
        <p>{agreementLacks(pair.limits.error, pairName(pair))}</p>
      )}
      <h4>Proportional difference</h4>
      <p>{proportionSentence(pair.proportion, pair.first, pair.second, '°')}</p>
    </section>
  );
}

function TruthSection({ readings, truth }: AgreementResultsProps) {
  return (
    <section aria-label="Error against the truth">
      <h3>Error against the truth</h3>
      <table className="table">
        <caption>Reading less truth, all readings counted</caption>
        <thead>
          <tr>
            <th scope="col">Rater</th>
            <th scope="col">Readings</th>
            <th scope="col">Mean error, 95 % limits</th>
            <th scope="col">SD</th>
            <th scope="col">Root mean square</th>
            <th scope="col">95 % of errors lie within</th>
          </tr>
        </thead>
        <tbody>
          {errorsAgainstTruth(readings, truth).map(({ rater, readings: count, rms, limits }) => (
            <tr key={rater}>
              <th scope="row">{rater}</th>
              <td>{count}</td>
              {limits.ok ? (
                <>
                  <td>
                    {signed(limits.value.meanDifference.value)}° (
                    {signed(limits.value.meanDifference.interval.low)} to{' '}
                    {signed(limits.value.meanDifference.interval.high)}°)
                  </td>
                  <td>{limits.value.sd.toFixed(2)}°</td>
                  <td>{rms.toFixed(2)}°</td>
                  <td>
                    {withSign(limits.value.lower.value)} to {withSign(limits.value.upper.value)}
                  </td>
                </>
              ) : (
                <td colSpan={4}>{agreementLacks(limits.error, rater)}</td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
