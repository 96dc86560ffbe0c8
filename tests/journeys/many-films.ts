import { createHash } from 'node:crypto';
import { type CaseRecord, type MarkRecord, recordId } from '../../src/case/document.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { type CourseFilm, courseCase } from './course-case.ts';

/** Films that differ in one pixel, so that each is a file of its own. */
export const manyFilms = (film: CourseFilm, count: number): readonly CourseFilm[] =>
  Array.from({ length: count }, (_, index) => {
    const bytes = film.bytes.slice();
    // The pixels end the file; the last rows of a film are its black edge.
    bytes[bytes.length - 2 - 2 * index] = (bytes[bytes.length - 2 - 2 * index] ?? 0) ^ 1;
    const id = `film-${index + 1}`;
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    return {
      ...film,
      id,
      bytes,
      record: { ...film.record, id: recordId(id), sha256, day: index },
      marks: [],
    };
  });

/** A case with that many marks, spread over its films; of marks with one role the last one counts. */
export function withMarks(films: readonly CourseFilm[], marks: number, about: { id: string; label: string }) {
  const whole = courseCase(films, about);
  const added = Array.from({ length: marks }, (_, index): MarkRecord => {
    const film = films[index % films.length]!;
    return {
      kind: 'mark',
      id: recordId(`mark-${index}`),
      filmId: film.record.id,
      role: index % 2 === 0 ? 'proximal-axis' : 'distal-axis',
      shape: {
        construction: 'free',
        from: filmPoint(300 + (index % 90), 900),
        to: filmPoint(320 + (index % 70), 500),
      },
      provenance: 'placed',
    };
  });
  const records: readonly CaseRecord[] = [...Object.values(whole.state.document.records), ...added];
  return {
    ...whole,
    state: {
      ...whole.state,
      document: {
        ...whole.state.document,
        records: Object.fromEntries(records.map((record) => [record.id, record])),
      },
    },
  };
}
