import { checksFor } from '../tolerance/checks.ts';
import type { NextStep } from './assessment.ts';
import type { ExaminationRecord, FilmRecord, InjuryRecord } from './document.ts';
import type { MarkedFilm } from './film-marks.ts';
import type { Reading } from './reading.ts';
import { sideRole } from './readings/film-angle.ts';

/**
 * What the worksheet marks as next: the first line, read from top to bottom, without which no outcome can be
 * given. Any order is allowed; this is only where to look.
 */
export function nextStep(
  injury: InjuryRecord,
  examination: ExaminationRecord,
  films: readonly MarkedFilm[],
  readings: readonly Reading[],
): NextStep | null {
  return injuryStep(injury) ?? filmStep(films) ?? axisStep(films, readings) ?? checkStep(injury, examination);
}

function injuryStep(injury: InjuryRecord): NextStep | null {
  const line = (['hand', 'ray', 'region'] as const).find((field) => injury[field] === null);
  return line === undefined ? null : { section: 'injury', line, filmId: null };
}

const injuredOnly = (films: readonly MarkedFilm[]) => films.filter(({ film }) => film.hand === 'injured');

function filmStep(films: readonly MarkedFilm[]): NextStep | null {
  const injured = injuredOnly(films);
  if (injured.length === 0) return { section: 'film', line: 'film', filmId: null };
  const unnamed = injured.find(({ film }) => film.view === null);
  return unnamed === undefined ? null : { section: 'film', line: 'view', filmId: unnamed.film.id };
}

/** Films that are only looked at need no axes, once one of them has an angle. */
function axisStep(films: readonly MarkedFilm[], readings: readonly Reading[]): NextStep | null {
  const injured = injuredOnly(films);
  const measured = readings.some((reading) => reading.quantity === 'angulation' && reading.state === 'known');
  const begun = injured.filter(({ marks }) => marks['proximal-axis'] ?? marks['distal-axis']);
  const wanted = measured || begun.length > 0 ? begun : injured.toSorted(lateralFirst).slice(0, 1);
  for (const { film, marks } of wanted) {
    const roles = ['proximal-axis', 'distal-axis', sideRole(film)] as const;
    const line = roles.find((role) => marks[role] === undefined);
    if (line !== undefined) return { section: 'axes', line, filmId: film.id };
  }
  return null;
}

const lateralFirst = (one: MarkedFilm, other: MarkedFilm): number =>
  Number(isLateral(other.film)) - Number(isLateral(one.film));

const isLateral = (film: FilmRecord): boolean => film.view === 'lateral';

function checkStep(injury: InjuryRecord, { answers }: ExaminationRecord): NextStep | null {
  const open = checksFor(injury).find((check) => answers[check.id] === undefined);
  return open === undefined ? null : { section: 'examination', line: open.id, filmId: null };
}
