import type { AgreementStudy } from '../../geometry/statistics/agreement-study.ts';
import type { IntraclassCorrelations } from '../../geometry/statistics/icc.ts';
import { iccLacks } from './study-words.ts';

const COEFFICIENTS: readonly (readonly [
  key: Exclude<keyof IntraclassCorrelations, 'anova'>,
  name: string,
  meaning: string,
])[] = [
  ['oneWaySingle', '(1,1)', 'one reading, raters may differ from film to film'],
  ['randomSingle', '(2,1)', 'one reading, these raters drawn from many; absolute agreement'],
  ['fixedSingle', '(3,1)', 'one reading, these raters only; consistency'],
  ['oneWayMean', '(1,k)', 'mean of all raters’ readings, as (1,1)'],
  ['randomMean', '(2,k)', 'mean of all raters’ readings, as (2,1)'],
  ['fixedMean', '(3,k)', 'mean of all raters’ readings, as (3,1)'],
];

/** Three decimals; a limit that is nowhere (of the mean of readings that may not correlate at all) is −∞. */
const shown = (value: number): string => (Number.isFinite(value) ? value.toFixed(3) : '−∞').replace('-', '−');

/** How much of the spread lies between the patients, in the forms a reader may need. */
export function CorrelationSection({ study }: { readonly study: AgreementStudy }) {
  const { correlations, complete, columns } = study;
  return (
    <section aria-label="Intraclass correlation">
      <h3>Intraclass correlation</h3>
      {correlations.ok ? (
        <table className="table">
          <caption>
            {complete.length} films that all {columns.length} columns have; analysis of variance after Shrout
            and Fleiss
          </caption>
          <thead>
            <tr>
              <th scope="col">ICC</th>
              <th scope="col">Value</th>
              <th scope="col">95 % limits</th>
              <th scope="col">Of what</th>
            </tr>
          </thead>
          <tbody>
            {COEFFICIENTS.map(([key, name, meaning]) => {
              const { value, limits } = correlations.value[key];
              return (
                <tr key={key}>
                  <th scope="row">{name}</th>
                  <td>{shown(value)}</td>
                  <td>{`${shown(limits.low)} to ${shown(limits.high)}`}</td>
                  <td>{meaning}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      ) : (
        <p>{iccLacks(correlations.error)}</p>
      )}
    </section>
  );
}
