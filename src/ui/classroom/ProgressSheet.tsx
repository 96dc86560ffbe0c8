import { type Attempt, progressOf } from '../../classroom/attempts.ts';
import type { Cause } from '../../classroom/causes.ts';
import { inDegrees, withSign } from '../../classroom/reveal-words.ts';
import { linearScale } from '../../geometry/linear-scale.ts';
import { PushButton } from '../controls/controls.tsx';

const CAUSE_NAMES: Readonly<Record<Cause['kind'], string>> = {
  'wrong-finger': 'another finger measured',
  'wrong-side': 'the wrong side tapped',
  'point-off': 'a point on the wrong edge',
  'axis-too-short': 'an axis too short',
  'axis-tilted': 'an axis turned',
  'normal-not-subtracted': 'no normal taken off',
  'normal-of-others': 'another normal than this bone’s',
  'view-oblique': 'the view itself',
};

interface ProgressSheetProps {
  readonly attempts: readonly Attempt[];
  readonly onSave: (kind: 'json' | 'csv') => void;
  readonly onForget: () => void;
}

/** How the attempts in this browser went: a plot over time, and the same in a table. */
export function ProgressSheet({ attempts, onSave, onForget }: ProgressSheetProps) {
  const progress = progressOf(attempts);
  return (
    <section className="leaf" aria-label="Your attempts">
      <h3>Your attempts</h3>
      {progress === null ? (
        <p className="aside-note">
          None yet. What you measure here is kept in this browser only, and nobody else sees it.
        </p>
      ) : (
        <>
          <p>
            {progress.attempts} so far. The truth lay within your interval in{' '}
            {Math.round(progress.attempts * progress.inside)} of them; with an honest interval it does in
            about 95 of 100. Typical error {inDegrees(progress.rmsError)}, on the average{' '}
            {withSign(progress.meanError)}.
          </p>
          {progress.causes[0] !== undefined && (
            <p>
              Most often: {CAUSE_NAMES[progress.causes[0].kind]} (first in {progress.causes[0].count} of
              them).
            </p>
          )}
          <AttemptPlot attempts={attempts} />
          <details>
            <summary>The same as a table</summary>
            <table className="table">
              <thead>
                <tr>
                  <th scope="col">Film</th>
                  <th scope="col">You</th>
                  <th scope="col">±</th>
                  <th scope="col">Truth</th>
                  <th scope="col">Error</th>
                  <th scope="col">First cause</th>
                </tr>
              </thead>
              <tbody>
                {attempts.map((attempt) => (
                  <tr key={`${attempt.at} ${attempt.exerciseId}`}>
                    <th scope="row">
                      {attempt.title}
                      <small>{attempt.from}</small>
                    </th>
                    <td>{inDegrees(attempt.value)}</td>
                    <td>{inDegrees(attempt.expandedUncertainty)}</td>
                    <td>{inDegrees(attempt.truth)}</td>
                    <td>{withSign(attempt.value - attempt.truth)}</td>
                    <td>
                      {attempt.causes[0] === undefined ? '' : CAUSE_NAMES[attempt.causes[0] as Cause['kind']]}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </details>
          <div className="leaf__actions">
            <PushButton onPress={() => onSave('csv')}>Save as CSV</PushButton>
            <PushButton onPress={() => onSave('json')}>Save as a file</PushButton>
            <PushButton quiet onPress={onForget}>
              Forget them
            </PushButton>
          </div>
        </>
      )}
    </section>
  );
}

const WIDTH = 640;
const HEIGHT = 190;

/** Error of each attempt with its claimed interval, in order of time; zero is the truth. */
function AttemptPlot({ attempts }: { readonly attempts: readonly Attempt[] }) {
  const shown = attempts.slice(-40);
  const reach = Math.max(
    10,
    ...shown.map(({ value, truth, expandedUncertainty }) => Math.abs(value - truth) + expandedUncertainty),
  );
  const y = linearScale([-Math.min(reach, 40), Math.min(reach, 40)], [HEIGHT - 22, 10], {
    clamped: true,
    rounded: true,
  });
  const x = (index: number) => 46 + ((index + 0.5) * (WIDTH - 56)) / Math.max(8, shown.length);
  const missed = shown.filter(({ verdict }) => verdict === 'outside').length;
  return (
    <svg
      className="plot"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={`Errors of your last ${shown.length} attempts with their intervals; ${missed} intervals missed the truth.`}
    >
      {y.ticks(5).map((tick) => (
        <g key={tick}>
          <path className={tick === 0 ? 'plot__zero' : 'plot__grid'} d={`M46 ${y(tick)}H${WIDTH - 8}`} />
          <text className="plot__number plot__number--y" x={40} y={y(tick) + 4}>
            {`${tick}°`.replace('-', '−')}
          </text>
        </g>
      ))}
      {shown.map((attempt, index) => {
        const error = attempt.value - attempt.truth;
        const outside = attempt.verdict === 'outside';
        return (
          <g key={`${attempt.at} ${attempt.exerciseId}`} className={outside ? 'plot__miss' : 'plot__hit'}>
            <path
              d={`M${x(index)} ${y(error - attempt.expandedUncertainty)}V${y(error + attempt.expandedUncertainty)}`}
            />
            {outside ? (
              <path d={`M${x(index) - 4} ${y(error) - 4}l8 8m0 -8l-8 8`} />
            ) : (
              <circle cx={x(index)} cy={y(error)} r={4} />
            )}
            {(error > y.values.to || error < y.values.from) && (
              <text className="plot__number" x={x(index)} y={y(error) + (error > 0 ? 18 : -9)}>
                {withSign(error)}
              </text>
            )}
          </g>
        );
      })}
      <text className="plot__number" x={WIDTH / 2} y={HEIGHT - 4}>
        attempts in order; a dot where the interval holds the truth, a cross where it misses
      </text>
    </svg>
  );
}
