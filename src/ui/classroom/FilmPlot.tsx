import { linearScale } from '../../geometry/linear-scale.ts';
import type { AgreementStudy } from '../../geometry/statistics/agreement-study.ts';

const WIDTH = 640;
const LEFT = 78;
const ROW = 20;

/** Signs that stay apart without colour; from the ninth column on they begin again, and the table tells. */
export const SIGNS = [
  'M-4 0a4 4 0 1 0 8 0a4 4 0 1 0 -8 0',
  'M-4 -4L4 4M-4 4L4 -4',
  'M0 -5L5 4H-5Z',
  'M-4 -4H4V4H-4Z',
  'M0 -5V5M-5 0H5',
  'M0 5L5 -4H-5Z',
  'M0 -5.5L5.5 0L0 5.5L-5.5 0Z',
  'M-5 0H5',
] as const;

interface FilmPlotProps {
  readonly study: AgreementStudy;
  readonly truth: ReadonlyMap<string, number>;
}

/** Every film on a line of its own: what each column read, and the truth where it is known. */
export function FilmPlot({ study, truth }: FilmPlotProps) {
  const { subjects, columns } = study;
  const values = columns.flatMap((column) => column.values.filter((value) => value !== null));
  const all = [...values, ...subjects.flatMap((subject) => truth.get(subject) ?? [])];
  if (all.length === 0) return null;
  const x = linearScale([Math.min(...all) - 1, Math.max(...all) + 1], [LEFT, WIDTH - 14], { rounded: true });
  const height = 34 + subjects.length * ROW;
  return (
    <svg
      className="plot"
      viewBox={`0 0 ${WIDTH} ${height}`}
      role="img"
      aria-label={`Readings of ${subjects.length} films by ${columns.map(({ label }) => label).join(', ')}${truth.size > 0 ? ', with the truth of each' : ''}.`}
    >
      {x.ticks(8).map((tick) => (
        <g key={tick}>
          <path className="plot__grid" d={`M${x(tick)} 6V${height - 24}`} />
          <text className="plot__number" x={x(tick)} y={height - 8}>
            {`${tick}°`.replace('-', '−')}
          </text>
        </g>
      ))}
      {subjects.map((subject, row) => {
        const y = 16 + row * ROW;
        const known = truth.get(subject);
        return (
          <g key={subject}>
            <text className="plot__number plot__number--y" x={LEFT - 10} y={y + 4}>
              {subject.length > 11 ? `${subject.slice(0, 10)}…` : subject}
            </text>
            <path className="plot__row" d={`M${LEFT} ${y}H${WIDTH - 14}`} />
            {known !== undefined && <path className="plot__truth" d={`M${x(known)} ${y - 8}V${y + 8}`} />}
            {columns.map(({ label, values: read }, index) => {
              const value = read[row] ?? null;
              return value === null ? null : (
                <path
                  key={label}
                  className="plot__sign"
                  transform={`translate(${x(value)} ${y})`}
                  d={SIGNS[index % SIGNS.length]}
                />
              );
            })}
          </g>
        );
      })}
    </svg>
  );
}

/** Which sign is whose. */
export function SignLegend({
  labels,
  truth,
}: {
  readonly labels: readonly string[];
  readonly truth: boolean;
}) {
  return (
    <ul className="sign-legend" aria-label="Signs">
      {labels.map((label, index) => (
        <li key={label}>
          <svg viewBox="-8 -8 16 16" aria-hidden="true">
            <path className="plot__sign" d={SIGNS[index % SIGNS.length]} />
          </svg>
          {label}
        </li>
      ))}
      {truth && (
        <li>
          <svg viewBox="-8 -8 16 16" aria-hidden="true">
            <path className="plot__truth" d="M0 -8V8" />
          </svg>
          truth
        </li>
      )}
    </ul>
  );
}
