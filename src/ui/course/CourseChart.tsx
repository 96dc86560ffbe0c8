import { line } from 'd3-shape';
import { valueAgainstLimit } from '../../case/comparison.ts';
import type { CoursePoint, CourseSeries } from '../../case/course/course-series.ts';
import { formatReading } from '../../case/format.ts';
import { type LinearScale, linearScale } from '../../geometry/linear-scale.ts';
import { bandText } from '../../tolerance/limit-words.ts';
import { dateOf } from './days.ts';
import type { DatedMilestone } from './milestone-days.ts';

interface CourseChartProps {
  readonly series: CourseSeries;
  readonly milestones: readonly DatedMilestone[];
  /** Last day of the axis. */
  readonly lastDay: number;
  readonly injuryDate: string | null;
  /** Width of the drawing in its own units; text keeps its size, so a narrow column gets a narrow drawing. */
  readonly width: number;
}

const LEFT = 46;
const RIGHT = 18;
const TOP = 16;
const PLOT = 220;
const MILESTONE = 21;
/** Width of a letter of the milestones, on the safe side of what their type takes on average. */
const LETTER = 6.8;

/** Points of one day stand side by side in the order of treatment. */
const BESIDE = 15;

/** Readings with their intervals over the limit band, day by day, and the milestones below on the same axis. */
export function CourseChart({ series, milestones, lastDay, injuryDate, width }: CourseChartProps) {
  const points = series.points.filter(({ film }) => film.day !== null);
  const x = linearScale([0, lastDay], [LEFT + 16, width - RIGHT]);
  const y = valueScale(series, points);
  const axis = TOP + PLOT;
  const shown = milestones.filter(({ fromDay }) => fromDay <= lastDay);
  const below = axis + (injuryDate === null ? 36 : 50);
  const height = below + (shown.length > 0 ? shown.length * MILESTONE + 8 : 0);
  const places = points.map((point) => ({ point, at: x(point.film.day ?? 0) + besideOf(point, points) }));
  const path = line<(typeof places)[number]>(
    ({ at }) => at,
    ({ point }) => y(valueAgainstLimit(point.reading)),
  )(places);
  return (
    <svg
      className="course-chart"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      aria-hidden="true"
    >
      <Limit series={series} y={y} width={width} />
      {y.ticks(5).map((value) => (
        <g key={value}>
          <path className="course-chart__grid" d={`M${LEFT} ${y(value)}H${width - RIGHT}`} />
          <text className="course-chart__number" x={LEFT - 8} y={y(value) + 4} textAnchor="end">
            {`${value}${series.unit === 'degrees' ? '°' : ''}`.replace('-', '−')}
          </text>
        </g>
      ))}
      <DayAxis x={x} axis={axis} width={width} injuryDate={injuryDate} />
      {path !== null && <path className="course-chart__line" d={path} />}
      {places.map(({ point, at }) => (
        <Point key={point.film.id} point={point} at={at} y={y} width={width} />
      ))}
      {shown.map((milestone, row) => (
        <MilestoneBar
          key={milestone.id}
          milestone={milestone}
          x={x}
          y={below + row * MILESTONE}
          width={width}
          lastDay={lastDay}
        />
      ))}
    </svg>
  );
}

function valueScale({ unit, band }: CourseSeries, points: readonly CoursePoint[]): LinearScale {
  const least = unit === 'degrees' ? 30 : 3;
  const ends = points.flatMap(({ reading }) => {
    const value = valueAgainstLimit(reading);
    const interval = Math.min(reading.expandedUncertainty, 40);
    return [value - interval, value + interval];
  });
  const most = Math.max(least, band === null ? 0 : band.hi * 1.12, ...ends);
  const lowest = Math.min(0, ...ends);
  return linearScale([lowest, most], [TOP + PLOT, TOP], { clamped: true, rounded: 5 });
}

function besideOf(point: CoursePoint, points: readonly CoursePoint[]): number {
  const sameDay = points.filter(({ film }) => film.day === point.film.day);
  return (sameDay.indexOf(point) - (sameDay.length - 1) / 2) * BESIDE;
}

function Limit({
  series: { band, unit, limitSetTitle },
  y,
  width,
}: {
  series: CourseSeries;
  y: LinearScale;
  width: number;
}) {
  if (band === null) return null;
  const across = width - RIGHT - LEFT;
  const rowUnit = unit === 'degrees' ? 'degrees' : 'millimetres';
  return (
    <g>
      <rect className="ruler__past" x={LEFT} y={TOP} width={across} height={Math.max(0, y(band.hi) - TOP)} />
      <rect
        className="ruler__band"
        x={LEFT}
        y={y(band.hi)}
        width={across}
        height={Math.max(1.5, y(band.lo) - y(band.hi))}
      />
      <text className="course-chart__limit" x={width - RIGHT - 4} y={y(band.hi) - 5} textAnchor="end">
        {`limit ${bandText(band, rowUnit)}, ${limitSetTitle ?? ''}`}
      </text>
    </g>
  );
}

function DayAxis({
  x,
  axis,
  width,
  injuryDate,
}: {
  x: LinearScale;
  axis: number;
  width: number;
  injuryDate: string | null;
}) {
  const weeks = x.values.to > 35;
  const every = weeks ? 14 : 7;
  const days = Array.from({ length: Math.floor(x.values.to / every) + 1 }, (_, i) => i * every);
  return (
    <g>
      <path className="course-chart__axis" d={`M${LEFT} ${axis}H${width - RIGHT}`} />
      {days.map((day) => (
        <g key={day} transform={`translate(${x(day)} ${axis})`}>
          <path className="course-chart__axis" d="M0 0v5" />
          <text className="course-chart__number" y="19" textAnchor="middle">
            {day === 0 ? 'day 0' : day}
          </text>
          {injuryDate !== null && (
            <text className="course-chart__number" y="33" textAnchor="middle">
              {dateOf(day, injuryDate)}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}

/** Before a reduction hollow, after it square, else round and filled. */
function Point({
  point: { film, reading },
  at,
  y,
  width,
}: {
  point: CoursePoint;
  at: number;
  y: LinearScale;
  width: number;
}) {
  const { expandedUncertainty } = reading;
  const value = valueAgainstLimit(reading);
  const [high, low, middle] = [y(value + expandedUncertainty), y(value - expandedUncertainty), y(value)];
  const text = formatReading(reading);
  const atEnd = at > width - 80;
  return (
    <g className="course-chart__point" data-moment={film.moment ?? undefined}>
      <path
        className="course-chart__interval"
        d={`M${at} ${high}V${low}M${at - 4} ${high}h8M${at - 4} ${low}h8`}
      />
      {film.moment === 'after-reduction' ? (
        <rect className="course-chart__dot" x={at - 5} y={middle - 5} width="10" height="10" />
      ) : (
        <circle className="course-chart__dot" cx={at} cy={middle} r="5.5" />
      )}
      <text
        className="course-chart__value"
        x={atEnd ? at - 10 : at + 10}
        y={middle - 7}
        textAnchor={atEnd ? 'end' : 'start'}
      >
        {text.value}
      </text>
    </g>
  );
}

function MilestoneBar({
  milestone: { name, fromDay, toDay },
  x,
  y,
  width,
  lastDay,
}: {
  milestone: DatedMilestone;
  x: LinearScale;
  y: number;
  width: number;
  lastDay: number;
}) {
  const [from, to] = [x(fromDay), x(Math.min(toDay, lastDay))];
  const wide = name.length * LETTER + 7;
  const fits = { right: Math.max(to, from + 2) + wide <= width, left: from - wide >= 0 };
  return (
    <g className="course-chart__milestone">
      <path d={`M${from} ${y + 8}H${Math.max(to, from + 2)}`} />
      <path
        className="course-chart__ends"
        d={`M${from} ${y + 4}v8${toDay <= lastDay ? `M${to} ${y + 4}v8` : ''}`}
      />
      {fits.right ? (
        <text x={Math.max(to, from + 2) + 7} y={y + 12}>
          {name}
        </text>
      ) : (
        // Where there is no room on either side it stands on the bar.
        <text x={fits.left ? from - 7 : width - 2} y={y + 12} textAnchor="end">
          {name}
        </text>
      )}
    </g>
  );
}
