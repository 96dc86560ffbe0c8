import { scaleLinear } from 'd3-scale';
import { type Ref, useImperativeHandle, useRef } from 'react';

export interface RulerReading {
  readonly value: number;
  readonly expandedUncertainty: number;
  readonly text: string;
}

export interface RulerTick {
  readonly id: string;
  readonly lo: number;
  readonly hi: number;
  readonly meaning: string;
  readonly citation: string;
}

/** Moves the dot and its bar without rendering, while a point is being dragged. */
export interface RulerHandle {
  show(reading: RulerReading): void;
}

interface LimitRulerProps {
  readonly ref?: Ref<RulerHandle>;
  readonly reading: RulerReading | null;
  readonly band: { readonly lo: number; readonly hi: number } | null;
  readonly ticks: readonly RulerTick[];
  readonly unit: 'degrees' | 'millimetres';
  /** One sentence that says the same as the picture. */
  readonly description: string;
}

const WIDTH = 400;
const LEFT = 12;
const RIGHT = 388;
const LINE = 44;

/** The farthest value the scale must reach, rounded up to a whole mark. */
function reach(props: LimitRulerProps): number {
  const step = props.unit === 'degrees' ? 10 : 1;
  const { reading, band, ticks } = props;
  const farthest = Math.max(
    props.unit === 'degrees' ? 60 : 6,
    band?.hi ?? 0,
    ...ticks.map((tick) => tick.hi),
    reading === null ? 0 : reading.value + Math.min(reading.expandedUncertainty, 30),
  );
  return Math.ceil((farthest + step / 2) / step) * step;
}

/**
 * The limit ruler: the chosen set's band, a tick for each published limit, the reading as a dot and its
 * 95 % interval as a bar. Everything below the band is tolerated, everything past its upper end is not.
 */
export function LimitRuler(props: LimitRulerProps) {
  const { reading, band, ticks, unit, description } = props;
  const most = reach(props);
  const least = reading !== null && reading.value - reading.expandedUncertainty < -5 ? -20 : 0;
  const x = scaleLinear().domain([least, most]).range([LEFT, RIGHT]).clamp(true);
  const marks = x.ticks(unit === 'degrees' ? 8 : 6);
  const named = marks.filter((_, i) => i % (marks.length > 8 ? 2 : 1) === 0);
  const suffix = unit === 'degrees' ? '°' : '';

  const bar = useRef<SVGPathElement>(null);
  const dot = useRef<SVGCircleElement>(null);
  const text = useRef<SVGTextElement>(null);
  const barPath = ({ value, expandedUncertainty }: RulerReading) =>
    `M${x(value - expandedUncertainty)} 20H${x(value + expandedUncertainty)}`;
  const textPlace = ({ value }: RulerReading) => Math.min(RIGHT - 28, Math.max(LEFT + 28, x(value)));
  useImperativeHandle(props.ref, () => ({
    show: (now) => {
      bar.current?.setAttribute('d', barPath(now));
      dot.current?.setAttribute('cx', `${x(now.value)}`);
      text.current?.setAttribute('x', `${textPlace(now)}`);
      if (text.current !== null) text.current.textContent = now.text;
    },
  }));
  return (
    <svg className="ruler" viewBox={`0 0 ${WIDTH} 68`} role="img" aria-label={description}>
      {band !== null && (
        <g>
          <rect
            className="ruler__past"
            x={x(band.hi)}
            y={LINE - 9}
            width={Math.max(0, RIGHT - x(band.hi))}
            height={18}
          />
          <rect
            className="ruler__band"
            x={x(band.lo)}
            y={LINE - 9}
            width={Math.max(1.5, x(band.hi) - x(band.lo))}
            height={18}
          />
        </g>
      )}
      <path className="ruler__line" d={`M${LEFT} ${LINE}H${RIGHT}`} />
      {marks.map((mark) => (
        <path key={mark} className="ruler__line" d={`M${x(mark)} ${LINE - 3}v6`} />
      ))}
      {named.map((mark) => (
        <text key={mark} className="ruler__number" x={x(mark)} y={LINE + 20}>
          {`${mark}${suffix}`.replace('-', '−')}
        </text>
      ))}
      {ticks.map((tick) => (
        <path
          key={tick.id}
          className="ruler__tick"
          d={`M${x(tick.lo)} ${LINE - 15}v9${tick.hi > tick.lo ? `M${x(tick.lo)} ${LINE - 11}H${x(tick.hi)}m0 -4v9` : ''}`}
        >
          <title>{`${tick.lo === tick.hi ? tick.hi : `${tick.lo}–${tick.hi}`}${suffix}: ${tick.meaning} (${tick.citation})`}</title>
        </path>
      ))}
      {reading !== null && (
        <g>
          <path ref={bar} className="ruler__interval" d={barPath(reading)} />
          <circle ref={dot} className="ruler__dot" cx={x(reading.value)} cy={20} r={5.5} />
          <text ref={text} className="ruler__reading" x={textPlace(reading)} y={9.5}>
            {reading.text}
          </text>
        </g>
      )}
    </svg>
  );
}
