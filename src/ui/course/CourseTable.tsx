import type { CourseChange, CourseSeries } from '../../case/course/course-series.ts';
import { MOMENT_WORDS } from '../../case/course/order.ts';
import type { RecordId } from '../../case/document.ts';
import { formatReading } from '../../case/format.ts';
import { dayWords } from './days.ts';

interface CourseTableProps {
  readonly series: CourseSeries;
  readonly injuryDate: string | null;
  readonly onFilm: (filmId: RecordId) => void;
}

/** The same as the chart, in words and numbers. */
export function CourseTable({ series, injuryDate, onFilm }: CourseTableProps) {
  const reduced = series.points.some(({ sinceReduction }) => sinceReduction !== null);
  return (
    <table className="course-table">
      <caption className="visually-hidden">{series.title}, film by film</caption>
      <thead>
        <tr>
          <th scope="col">Film</th>
          <th scope="col">Reading</th>
          <th scope="col">Since the last</th>
          {reduced && <th scope="col">Since reduction</th>}
        </tr>
      </thead>
      <tbody>
        {series.points.map(({ film, name, reading, comparison, sinceLast, sinceReduction }) => {
          const text = formatReading(reading);
          return (
            <tr key={film.id}>
              <th scope="row">
                <button
                  type="button"
                  className="link-button"
                  title={`Show the ${name} on the bench`}
                  onClick={() => onFilm(film.id)}
                >
                  {film.day === null ? 'day not said' : dayWords(film.day, injuryDate)}
                </button>
                {film.moment !== null && <small>{MOMENT_WORDS[film.moment]}</small>}
              </th>
              <td>
                <span className="course-table__value">
                  {text.value} <small>{text.plusMinus}</small>
                </span>
                <small data-outcome={comparison?.outcome}>{comparison?.outcome ?? 'not compared'}</small>
              </td>
              <Change change={sinceLast} />
              {reduced && <Change change={sinceReduction} />}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function Change({ change }: { change: CourseChange | null }) {
  if (change === null) return <td>–</td>;
  const [size, meaning] = change.words.split(': ');
  return (
    <td data-verdict={change.verdict}>
      {size}
      <small>{meaning}</small>
    </td>
  );
}
