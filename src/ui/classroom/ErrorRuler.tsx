import type { Reveal } from '../../classroom/reveal.ts';
import { inDegrees } from '../../classroom/reveal-words.ts';
import { linearScale } from '../../geometry/linear-scale.ts';

const WIDTH = 360;

/** The reading with its interval, and the truth, on one line of degrees. */
export function ErrorRuler({ found }: { readonly found: Reveal }) {
  const { value, truth } = found;
  const half = found.reading.expandedUncertainty;
  const ends = [value - half, value + half, truth];
  const x = linearScale([Math.min(...ends) - 2, Math.max(...ends) + 2], [14, WIDTH - 14], { rounded: true });
  const truthAt = x(truth);
  return (
    <svg
      className="error-ruler"
      viewBox={`0 0 ${WIDTH} 62`}
      role="img"
      aria-label={`Your interval runs from ${inDegrees(value - half)} to ${inDegrees(value + half)}; the truth is ${inDegrees(truth)}.`}
    >
      <path className="error-ruler__line" d={`M14 38H${WIDTH - 14}`} />
      {x.ticks(7).map((tick) => (
        <g key={tick}>
          <path className="error-ruler__line" d={`M${x(tick)} 35v6`} />
          <text className="error-ruler__number" x={x(tick)} y={56}>
            {`${tick}°`.replace('-', '−')}
          </text>
        </g>
      ))}
      <path className="error-ruler__interval" d={`M${x(value - half)} 24H${x(value + half)}`} />
      <circle className="error-ruler__dot" cx={x(value)} cy={24} r={5} />
      <path className="error-ruler__truth" d={`M${truthAt} 12V42`} />
      <text className="error-ruler__label" x={Math.min(WIDTH - 30, Math.max(30, truthAt))} y={6}>
        truth
      </text>
    </svg>
  );
}
