import '../../ui/look/course.css';
import '../../ui/look/compare.css';
import { useEffect, useMemo, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { inCourseOrder, reductionDay } from '../../case/course/order.ts';
import type { RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { pictureKey } from '../../case/film-place.ts';
import { injuryOf, settingsOf } from '../../case/fixed-records.ts';
import { filmNames } from '../../case/readings/names.ts';
import { suggestedMilestones } from '../../tolerance/milestones.ts';
import type { BenchActions } from '../../ui/actions.ts';
import { CourseChart } from '../../ui/course/CourseChart.tsx';
import { CourseTable } from '../../ui/course/CourseTable.tsx';
import { FilmTimes } from '../../ui/course/FilmTimes.tsx';
import { MilestoneList } from '../../ui/course/MilestoneList.tsx';
import { inDaysSinceInjury, lastDayShown } from '../../ui/course/milestone-days.ts';
import { CautionList } from '../../ui/outcome/CautionList.tsx';
import { assessmentOf } from '../assessment.ts';
import { CompareFilms } from '../course/CompareFilms.tsx';
import { allSets } from '../limits/sets.ts';
import type { Shell } from '../shell.ts';

const COURSE_CAUTIONS: readonly string[] = [
  'lost-correction-on-films',
  'lost-correction',
  'displaced-further',
  'films-drawn-differently',
];

export function CoursePlace({ shell, actions }: { shell: Shell; actions: BenchActions }) {
  const { store } = shell;
  const document = useStore(store, (state) => state.caseState.document);
  const thumbnails = useStore(store, (state) => state.thumbnails);
  const chart = useRef<HTMLDivElement>(null);
  const width = useWidth(chart);
  const injury = injuryOf(document);
  const settings = settingsOf(document);
  const localSets = useStore(store, (state) => state.localSets);
  const assessment = assessmentOf(document, allSets(localSets));
  const injured = useMemo(() => {
    const films = markedFilms(document).map(({ film }) => film);
    const names = filmNames(films);
    return inCourseOrder(films.map((film) => ({ film, name: names.get(film.id) ?? '' }))).filter(
      ({ film }) => film.hand === 'injured',
    );
  }, [document]);
  const compared = useMemo(() => injured.map(({ film, name }) => ({ record: film, name })), [injured]);
  const reduced = reductionDay(injured.map(({ film }) => film));
  const milestones = settings.milestones ?? suggestedMilestones(injury.ray, injury.region);
  const dated = inDaysSinceInjury(milestones, reduced);
  const days = injured.flatMap(({ film }) => (film.day === null ? [] : [film.day]));
  const lastDay = lastDayShown(days, dated);
  const cautions = assessment.cautions.filter(({ id }) => COURSE_CAUTIONS.includes(id));
  const toBench = (filmId: RecordId) => {
    actions.chooseFilm(filmId);
    store.setState({ place: 'bench' });
  };
  return (
    <main className="course">
      <header className="course__head">
        <h2>Course</h2>
        <p>
          {injury.label !== '' && <em>{injury.label}: </em>}
          {summaryOf(injured.length, days)}
        </p>
      </header>
      {cautions.length > 0 && <CautionList cautions={cautions} atFirst={3} />}
      {assessment.course.length === 0 && (
        <p className="course__empty">
          Nothing is measured yet. Place both axes on a film on the bench, and its reading stands here on its
          day.
        </p>
      )}
      {assessment.course.map((series, index) => (
        <section className="course__series" key={series.id} aria-label={series.title}>
          <h3>{series.title}</h3>
          <div ref={index === 0 ? chart : undefined} className="course__chart">
            <CourseChart
              series={series}
              milestones={index === 0 ? dated : []}
              lastDay={lastDay}
              injuryDate={injury.date}
              width={width}
            />
          </div>
          <CourseTable series={series} injuryDate={injury.date} onFilm={toBench} />
        </section>
      ))}
      {assessment.course.length > 0 && (
        <div className="course__key">
          <small>Hollow: before reduction. Square: after it. Bars: 95&nbsp;% intervals.</small>
          <details className="more">
            <summary>How a change is told</summary>
            <small>
              A difference is called a change only beyond the smallest one that both readings let one tell,
              1.96 times the square root of the sum of their squared uncertainties.
            </small>
          </details>
        </div>
      )}
      <CompareFilms shell={shell} document={document} films={compared} />
      <div className="course__foot">
        <FilmTimes
          films={injured.map(({ film, name }) => ({
            record: film,
            name,
            thumbnail: thumbnails.get(pictureKey(film)) ?? null,
          }))}
          injuryDate={injury.date}
          actions={actions}
        />
        <MilestoneList
          milestones={milestones}
          own={settings.milestones !== null}
          onChange={(changed, label) => actions.setSettings({ milestones: changed }, label)}
        />
      </div>
    </main>
  );
}

function summaryOf(films: number, days: readonly number[]): string {
  if (films === 0) return 'No film of the injured hand is in this case yet.';
  const count = films === 1 ? 'One film' : `${films} films`;
  const without = films - days.length;
  const undated = without === 0 ? '' : ` ${without === 1 ? 'One has' : `${without} have`} no day yet.`;
  if (days.length === 0) return `${count} of the injured hand.${undated}`;
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const span = first === last ? `of day ${first}` : `from day ${first} to day ${last}`;
  return `${count} of the injured hand, ${span} after the injury.${undated}`;
}

function useWidth(element: React.RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(640);
  useEffect(() => {
    const node = element.current;
    if (node === null) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry !== undefined) setWidth(Math.max(300, Math.floor(entry.contentRect.width)));
    });
    observer.observe(node);
    return () => observer.disconnect();
  });
  return width;
}
