import { UNIT_SIGN } from '../../case/format.ts';
import type { KnownReading } from '../../case/reading.ts';
import { decimalsFor } from '../../tolerance/number-words.ts';

/** Each source of uncertainty with its size and its share of the variance, largest first. */
export function Budget({ reading }: { reading: KnownReading }) {
  const unit = UNIT_SIGN[reading.unit];
  const lines = reading.budget.toSorted((one, other) => other.share - one.share);
  const { degreesOfFreedom } = reading;
  return (
    <table className="budget">
      <caption>Where the ± comes from</caption>
      <thead>
        <tr>
          <th scope="col">Source</th>
          <th scope="col">One SD</th>
          <th scope="col">Share</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr key={line.source}>
            <th scope="row">
              {line.source}
              <small>{line.basis}</small>
            </th>
            <td>
              {line.standardUncertainty.toFixed(Math.max(1, decimalsFor(2 * line.standardUncertainty)))}
              {unit}
            </td>
            <td>{Math.round(line.share * 100)} %</td>
          </tr>
        ))}
      </tbody>
      {Number.isFinite(degreesOfFreedom) && (
        <tfoot>
          <tr>
            <td colSpan={3}>
              {Math.round(degreesOfFreedom)} degrees of freedom: the 95 % interval is{' '}
              {(reading.expandedUncertainty / reading.standardUncertainty).toFixed(2)} SDs to each side
            </td>
          </tr>
        </tfoot>
      )}
    </table>
  );
}
