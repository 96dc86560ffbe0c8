import { type KeyboardEvent, type Ref, useId, useImperativeHandle, useRef, useState } from 'react';
import { linearScale } from '../../geometry/linear-scale.ts';

export interface RulerReading {
  readonly value: number;
  readonly expandedUncertainty: number;
  readonly text: string;
}

/** One published number, or several of the same value, that is drawn as a tick. */
export interface RulerTick {
  readonly id: string;
  readonly lo: number;
  readonly hi: number;
  readonly meaning: string;
  readonly citation: string;
}

/** One limit set's band on a lane of its own. */
export interface RulerLane {
  readonly id: string;
  readonly title: string;
  readonly band: { readonly lo: number; readonly hi: number } | null;
  readonly outcome: string;
}

/** Moves the dot and its bar without rendering, while a point is being dragged. */
export interface RulerHandle {
  /** @param reading - Null: there is none where the point is now. */
  show(reading: RulerReading | null): void;
}

interface LimitRulerProps {
  readonly ref?: Ref<RulerHandle>;
  readonly reading: RulerReading;
  /** The first is the set that the outcome in words belongs to. */
  readonly lanes: readonly RulerLane[];
  readonly ticks: readonly RulerTick[];
  readonly unit: 'degrees' | 'millimetres';
  /** One sentence that says the same as the picture. */
  readonly description: string;
}

const WIDTH = 400;
const LEFT = 12;
const RIGHT = 388;
/** Height of the line of the scale below the top, and of each lane below it. */
const LINE = 44;
const LANE = 25;

/** The farthest value the scale must reach, rounded up to a whole mark. */
function reach({ unit, reading, lanes, ticks }: LimitRulerProps): number {
  const step = unit === 'degrees' ? 10 : 1;
  const farthest = Math.max(
    unit === 'degrees' ? 60 : 6,
    ...lanes.map(({ band }) => band?.hi ?? 0),
    ...ticks.map((tick) => tick.hi),
    reading.value + Math.min(reading.expandedUncertainty, 30),
  );
  return Math.ceil((farthest + step / 2) / step) * step;
}

/** The lowest value of the scale, rounded down to a whole mark: 0, unless the reading or its bar lies well below. */
function start({ unit, reading }: LimitRulerProps): number {
  const step = unit === 'degrees' ? 10 : 1;
  const lowest = reading.value - Math.min(reading.expandedUncertainty, 3 * step);
  return lowest < -step / 2 ? Math.min(-2 * step, Math.floor(lowest / step) * step) : 0;
}

/** Ticks of one value are one stop: they lie on one another, and are read out together. */
interface Stop {
  readonly lo: number;
  readonly hi: number;
  readonly ticks: readonly RulerTick[];
}

function stopsOf(ticks: readonly RulerTick[]): readonly Stop[] {
  const stops = new Map<string, Stop>();
  for (const tick of ticks) {
    const key = `${tick.lo} ${tick.hi}`;
    stops.set(key, { lo: tick.lo, hi: tick.hi, ticks: [...(stops.get(key)?.ticks ?? []), tick] });
  }
  return [...stops.values()].toSorted((one, other) => one.lo - other.lo || one.hi - other.hi);
}

/**
 * The limit ruler: a band for each chosen set, a tick for each published limit, the reading as a dot and its
 * 95 % interval as a bar. Everything below a band is tolerated, everything past its upper end is not. A tick
 * taken with the pointer or with the arrow keys says what it is and who says so.
 */
export function LimitRuler(props: LimitRulerProps) {
  const { reading, lanes, ticks, unit, description } = props;
  const most = reach(props);
  const least = start(props);
  const x = linearScale([least, most], [LEFT, RIGHT], { clamped: true });
  const marks = x.ticks(unit === 'degrees' ? 8 : 6);
  const named = marks.filter((_, i) => i % (marks.length > 8 ? 2 : 1) === 0);
  const suffix = unit === 'degrees' ? '°' : '\u2009mm';
  const stops = stopsOf(ticks);
  const [taken, setTaken] = useState<number | null>(null);
  const stop = taken === null ? null : (stops[taken] ?? null);
  const sourcesId = useId();

  const bar = useRef<SVGPathElement>(null);
  const dot = useRef<SVGCircleElement>(null);
  const text = useRef<SVGTextElement>(null);
  const barPath = ({ value, expandedUncertainty }: RulerReading) =>
    `M${x(value - expandedUncertainty)} 20H${x(value + expandedUncertainty)}`;
  const textPlace = ({ value }: RulerReading) => Math.min(RIGHT - 56, Math.max(LEFT + 56, x(value)));
  // A point is dragged beyond the ends of the scale before it has grown: the dot stays there, and the number points on.
  const textOf = ({ value, text: said }: RulerReading) =>
    value < least ? `← ${said}` : value > most ? `${said} →` : said;
  useImperativeHandle(props.ref, () => ({
    show: (now) => {
      for (const part of [bar, dot, text])
        part.current?.setAttribute('visibility', now === null ? 'hidden' : 'visible');
      if (now === null) return;
      bar.current?.setAttribute('d', barPath(now));
      dot.current?.setAttribute('cx', `${x(now.value)}`);
      text.current?.setAttribute('x', `${textPlace(now)}`);
      if (text.current !== null) text.current.textContent = textOf(now);
    },
  }));
  /** With one set the band lies on the scale itself; with several each has a lane below, with its name. */
  const several = lanes.length > 1;
  const top = (index: number) => (several ? LINE + 38 + index * LANE : LINE - 9);
  const height = several ? LINE + 32 + lanes.length * LANE : 68;
  const move = (event: KeyboardEvent) => {
    const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key] ?? 0;
    if (by !== 0) setTaken((now) => (now === null ? 0 : (now + by + stops.length) % stops.length));
    else if (event.key === 'Escape' && taken !== null) setTaken(null);
    else return;
    event.preventDefault();
  };
  return (
    <div className="limit-ruler">
      <svg className="ruler" viewBox={`0 0 ${WIDTH} ${height}`} role="img" aria-label={description}>
        {lanes.map(({ id, title, band, outcome }, index) => (
          <g key={id}>
            {band !== null && (
              <>
                <rect
                  className="ruler__past"
                  x={x(band.hi)}
                  y={top(index)}
                  width={Math.max(0, RIGHT - x(band.hi))}
                  height={several ? 8 : 18}
                />
                <rect
                  className="ruler__band"
                  x={x(band.lo)}
                  y={top(index)}
                  width={Math.max(1.5, x(band.hi) - x(band.lo))}
                  height={several ? 8 : 18}
                />
              </>
            )}
            {several && (
              <>
                <text className="ruler__lane" x={LEFT} y={top(index) - 4}>
                  {title}
                </text>
                <text className="ruler__lane" x={RIGHT} y={top(index) - 4} textAnchor="end">
                  {outcome}
                </text>
                <path className="ruler__lane-line" d={`M${LEFT} ${top(index) + 8}H${RIGHT}`} />
              </>
            )}
          </g>
        ))}
        <path className="ruler__line" d={`M${LEFT} ${LINE}H${RIGHT}`} />
        {marks.map((mark) => (
          <path key={mark} className="ruler__line" d={`M${x(mark)} ${LINE - 3}v6`} />
        ))}
        {named.map((mark) => (
          <text key={mark} className="ruler__number" x={x(mark)} y={LINE + 20}>
            {`${mark}${unit === 'degrees' ? '°' : ''}`.replace('-', '−')}
          </text>
        ))}
        {stops.map(({ lo, hi }, index) => (
          <path
            key={`${lo} ${hi}`}
            className="ruler__tick"
            data-taken={index === taken || undefined}
            d={`M${x(lo)} ${LINE - 15}v9${hi > lo ? `M${x(lo)} ${LINE - 11}H${x(hi)}m0 -4v9` : ''}`}
          />
        ))}
        <path ref={bar} className="ruler__interval" d={barPath(reading)} />
        <circle ref={dot} className="ruler__dot" cx={x(reading.value)} cy={20} r={5.5} />
        <text ref={text} className="ruler__reading" x={textPlace(reading)} y={9.5}>
          {reading.text}
        </text>
      </svg>
      {stops.length > 0 && (
        <div
          className="limit-ruler__ticks"
          role="slider"
          tabIndex={0}
          aria-label="Published single limits"
          aria-valuemin={0}
          aria-valuemax={stops.length}
          aria-valuenow={taken === null ? 0 : taken + 1}
          aria-valuetext={stop === null ? `${stops.length} values, none taken` : sourcesText(stop, suffix)}
          aria-describedby={sourcesId}
          onKeyDown={move}
          onPointerDown={(event) => {
            const box = event.currentTarget.getBoundingClientRect();
            const at = x.valueAt(((event.clientX - box.left) / box.width) * WIDTH);
            const nearest = stops
              .map(({ lo, hi }, index) => ({ index, away: Math.max(lo - at, at - hi, 0) }))
              .toSorted((one, other) => one.away - other.away)[0];
            setTaken(nearest === undefined ? null : nearest.index);
          }}
        />
      )}
      <div id={sourcesId} className="limit-ruler__sources">
        {stop !== null && (
          <>
            <b>{`${rangeText(stop)}${suffix}`}</b>
            <ul>
              {stop.ticks.map((tick) => (
                <li key={tick.id}>
                  {tick.meaning} <small>{tick.citation}</small>
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
    </div>
  );
}

const rangeText = ({ lo, hi }: Stop): string => (lo === hi ? `${hi}` : `${lo}–${hi}`);

const sourcesText = (stop: Stop, suffix: string): string =>
  `${rangeText(stop)}${suffix}: ${stop.ticks.map(({ meaning, citation }) => `${meaning} (${citation})`).join('; ')}`;
