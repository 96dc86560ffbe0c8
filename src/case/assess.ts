import type { FilmFacts, ReadingFacts } from '../tolerance/caution-facts.ts';
import { cautionsFor } from '../tolerance/cautions.ts';
import type { LimitSet } from '../tolerance/limit-set.ts';
import { type Assessment, MEASUREMENT_VERSION } from './assessment.ts';
import type { Comparison } from './comparison.ts';
import { angleComparisons, displacementComparisons } from './comparisons.ts';
import { changeFacts, courseSeries } from './course/series.ts';
import type { CaseDocument, FilmRecord, InjuryRecord } from './document.ts';
import { markedFilms } from './film-marks.ts';
import { reachInPixels } from './film-placing.ts';
import { examinationOf, injuryOf, settingsOf } from './fixed-records.ts';
import { nextStep } from './next-step.ts';
import type { Reading } from './reading.ts';
import { bendPlaceOn } from './readings/bend-place.ts';
import { deformityOf, type FilmDeformity } from './readings/deformity.ts';
import { jointOn, translationOn } from './readings/displacements.ts';
import { filmAngle } from './readings/film-angle.ts';
import { fistReadings } from './readings/fist.ts';
import type { FilmToRead } from './readings/further.ts';
import { filmLength } from './readings/length.ts';
import { filmNames } from './readings/names.ts';
import type { MeasuredFilm } from './readings/normal.ts';
import { shorteningOn } from './readings/shortening.ts';
import { spatialReadings } from './readings/spatial.ts';

/**
 * Everything that follows from a case: readings with their budgets, comparisons with the chosen limit sets,
 * cautions, and what the worksheet marks as next. Pure, and cheap enough for every pointer move: a preview is
 * the document with the moved mark in it.
 *
 * @param limitSets - Every set on this computer; the case's settings choose from them.
 */
export function assess(document: CaseDocument, limitSets: readonly LimitSet[]): Assessment {
  const injury = injuryOf(document);
  const examination = examinationOf(document);
  const settings = settingsOf(document);
  const pictures = markedFilms(document);
  const marked = pictures.filter(({ film }) => film.shows === 'bones');
  const names = filmNames(pictures.map(({ film }) => film));
  const films = marked.map((one): FilmToRead => {
    const name = names.get(one.film.id) ?? '';
    return { ...one, name, angle: filmAngle(one, settings, injury.ray, name) };
  });
  const chosen = chosenSets(settings.limitSetIds, limitSets);
  const others = films.flatMap((film) => (film.film.hand === 'other' ? measuredOn(film) : []));
  const read = films.map((film) => {
    const [injured] = film.film.hand === 'injured' ? measuredOn(film) : [];
    const deformity = injured === undefined ? null : deformityOf(injured, others, injury, settings);
    const comparisons =
      injured === undefined || deformity === null
        ? []
        : angleComparisons(injured, deformity, injury, chosen.found);
    const length = filmLength(film, settings, injury.ray, film.name);
    const bend = film.film.hand === 'injured' ? bendPlaceOn(film, injury, settings, length) : [];
    return { film, deformity, comparisons, length, bend };
  });
  const ofFilms = read.flatMap(({ film, deformity, length, bend }): readonly Reading[] => [
    ...(film.angle === null ? [] : [film.angle.reading]),
    ...(deformity?.readings ?? []),
    ...bend,
    ...(length === null ? [] : [length]),
  ]);
  const otherHand = films.filter(({ film }) => film.hand === 'other');
  const displacements = [
    ...films
      .filter(({ film }) => film.hand === 'injured')
      .flatMap((film) => [
        ...shorteningOn(film, otherHand, injury, settings),
        ...translationOn(film, injury, settings),
        ...jointOn(film, injury, settings),
      ]),
  ];
  const photographs = pictures
    .filter(({ film }) => film.shows === 'fist')
    .map((one) => ({ ...one, name: names.get(one.film.id) ?? '' }));
  const readings = [
    ...ofFilms,
    ...displacements,
    ...spatialReadings(films),
    ...fistReadings(photographs, settings, injury),
  ];
  const comparisons = [
    ...read.flatMap(({ comparisons: ofFilm }) => ofFilm),
    ...displacementComparisons(displacements, injury, chosen.found),
  ];
  const course = courseSeries(
    marked.map(({ film }) => film),
    { readings, comparisons },
    settings.limitSetIds[0] ?? null,
  );
  return {
    measurementVersion: MEASUREMENT_VERSION,
    readings,
    comparisons,
    course,
    missingLimitSetIds: chosen.missing,
    cautions: cautionsFor({
      injury,
      answers: examination.answers,
      films: films.map((film) => filmFacts(film, injury)),
      readings: read.flatMap(({ film, deformity, comparisons }) =>
        film.angle?.angle && deformity
          ? [readingFacts(film.angle.angle.measured.signed, deformity, comparisons)]
          : [],
      ),
      changes: changeFacts(course),
    }),
    next: nextStep(injury, examination, marked, readings),
  };
}

function chosenSets(ids: readonly string[], limitSets: readonly LimitSet[]) {
  const found = ids.flatMap((id) => limitSets.find((set) => set.id === id) ?? []);
  return { found, missing: ids.filter((id) => !found.some((set) => set.id === id)) };
}

const measuredOn = ({ film, name, angle }: FilmToRead): readonly MeasuredFilm[] =>
  angle?.angle ? [{ film, name, angle: angle.angle }] : [];

function filmFacts(marked: FilmToRead, injury: InjuryRecord): FilmFacts {
  const { film, name, angle } = marked;
  return {
    name,
    hand: film.hand,
    view: film.view,
    spacing: film.spacing,
    axes: angle?.axes ?? [],
    burnedIn: film.burnedIn,
    lossy: film.lossy,
    mirrored: film.mirrored,
    statedSide: film.stated.laterality,
    expectedSide: expectedSide(film, injury),
    invented: film.invented,
    reachPixels: reachInPixels(marked),
    slant: film.slant ?? null,
  };
}

function expectedSide(film: FilmRecord, { hand }: InjuryRecord): 'left' | 'right' | null {
  if (hand === null || film.hand === 'injured') return hand;
  return hand === 'left' ? 'right' : 'left';
}

const readingFacts = (
  signed: boolean,
  { normal }: FilmDeformity,
  comparisons: readonly Comparison[],
): ReadingFacts => ({
  normalFrom: normal?.from ?? null,
  normalMismatch: normal?.mismatch ?? null,
  normalSpreadAssumed: normal?.spreadAssumed ?? false,
  signed,
  comparisons: comparisons.map(({ limitSet, outcome, methodMismatch }) => ({
    limitSetTitle: limitSet.title,
    population: limitSet.population,
    outcome,
    methodMismatch,
  })),
});
