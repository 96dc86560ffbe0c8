import { inDegrees, withSign } from '../../classroom/reveal-words.ts';
import { linearScale } from '../../geometry/linear-scale.ts';
import type { PairAgreement } from '../../geometry/statistics/agreement-study.ts';
import type { Agreement } from '../../geometry/statistics/bland-altman.ts';

const WIDTH = 640;
const HEIGHT = 300;
const LEFT = 52;
const RIGHT = WIDTH - 118;
const TOP = 12;
const BOTTOM = HEIGHT - 44;

interface BlandAltmanPlotProps {
  readonly pair: PairAgreement;
  readonly limits: Agreement;
}

/** Difference against mean, with the mean difference and the limits of agreement, each with its own interval. */
export function BlandAltmanPlot({ pair, limits }: BlandAltmanPlotProps) {
  const { points, meanDifference, lower, upper } = limits;
  const means = points.map(({ mean }) => mean);
  const x = linearScale([Math.min(...means) - 2, Math.max(...means) + 2], [LEFT, RIGHT], { rounded: true });
  const differences = points.map(({ difference }) => difference);
  const y = linearScale(
    [
      Math.min(lower.interval.low, ...differences, 0) - 0.5,
      Math.max(upper.interval.high, ...differences, 0) + 0.5,
    ],
    [BOTTOM, TOP],
    { rounded: true },
  );
  const lines = [
    { name: 'upper limit', bounded: upper, className: 'plot__limit' },
    { name: 'mean', bounded: meanDifference, className: 'plot__mean' },
    { name: 'lower limit', bounded: lower, className: 'plot__limit' },
  ];
  const description = `Difference ${pair.first} − ${pair.second} against the mean of the two, ${points.length} films: mean difference ${withSign(meanDifference.value)}, limits of agreement ${withSign(lower.value)} to ${withSign(upper.value)}.`;
  return (
    <svg className="plot" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={description}>
      {lines.map(({ name, bounded, className }) => (
        <g key={name}>
          <rect
            className="plot__band"
            x={LEFT}
            width={RIGHT - LEFT}
            y={y(bounded.interval.high)}
            height={Math.max(0, y(bounded.interval.low) - y(bounded.interval.high))}
          />
          <path className={className} d={`M${LEFT} ${y(bounded.value)}H${RIGHT}`} />
          <text className="plot__label" x={RIGHT + 8} y={y(bounded.value) + 4}>
            {name} {withSign(bounded.value)}
          </text>
        </g>
      ))}
      <path className="plot__zero" d={`M${LEFT} ${y(0)}H${RIGHT}`} />
      {y.ticks(6).map((tick) => (
        <text key={tick} className="plot__number plot__number--y" x={LEFT - 6} y={y(tick) + 4}>
          {`${tick}°`.replace('-', '−')}
        </text>
      ))}
      <path className="plot__axis" d={`M${LEFT} ${TOP}V${BOTTOM}H${RIGHT}`} />
      {x.ticks(7).map((tick) => (
        <text key={tick} className="plot__number" x={x(tick)} y={BOTTOM + 16}>
          {inDegrees(tick).replace('.0', '')}
        </text>
      ))}
      {points.map(({ mean, difference }, index) => (
        <circle key={pair.subjects[index]} className="plot__point" cx={x(mean)} cy={y(difference)} r={4}>
          <title>{`${pair.subjects[index]}: ${withSign(difference)}`}</title>
        </circle>
      ))}
      <text className="plot__number" x={(LEFT + RIGHT) / 2} y={HEIGHT - 8}>
        mean of {pair.first} and {pair.second}
      </text>
    </svg>
  );
}
