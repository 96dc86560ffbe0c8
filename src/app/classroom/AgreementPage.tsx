import { useEffect, useMemo, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { drawnSet } from '../../classroom/drawn-sets.ts';
import { formatOf } from '../../classroom/file-head.ts';
import { filmName, nextTurn, ratedReadings, type Study } from '../../classroom/study.ts';
import { reasonOf } from '../../geometry/result.ts';
import type { RatedReading } from '../../geometry/statistics/agreement-study.ts';
import {
  ratingsCsvSentence,
  readRatingsCsv,
  writeRatingsCsv,
} from '../../geometry/statistics/ratings-csv.ts';
import { AgreementResults } from '../../ui/classroom/AgreementResults.tsx';
import { PlanSheet } from '../../ui/classroom/PlanSheet.tsx';
import { type StudyPlan, StudySetup } from '../../ui/classroom/StudySetup.tsx';
import { PushButton } from '../../ui/controls/controls.tsx';
import { download } from '../download.ts';
import { say } from '../shell.ts';
import type { Room } from './room.ts';
import { freshSeed, openRoomFile, putStudy, saveStudy } from './room-actions.ts';
import { beginTurn } from './study-actions.ts';

interface ImportedTable {
  readonly name: string;
  readonly readings: readonly RatedReading[];
}

const UNKNOWN: ReadonlyMap<string, number> = new Map();

/** Studies of agreement: set up, measured blinded, and worked out; or a table from elsewhere worked out alike. */
export function AgreementPage({ room }: { readonly room: Room }) {
  const study = useStore(room.store, (state) => state.study);
  const set = useStore(room.store, (state) => state.set);
  const [table, setTable] = useState<ImportedTable | null>(null);
  const file = useRef<HTMLInputElement>(null);

  const open = async (chosen: File) => {
    const text = await chosen.text();
    if (formatOf(text) !== null) return openRoomFile(room, text, chosen.name);
    const read = readRatingsCsv(text);
    if (read.ok) setTable({ name: chosen.name, readings: read.value });
    else say(room.app, ratingsCsvSentence(read.error, chosen.name));
  };
  const begin = (plan: StudyPlan) => {
    setTable(null);
    putStudy(room, studyOf(plan, room.store.getState().set.films, room.app.newId()));
  };

  return (
    <div className="agreement">
      <div>
        <h2>Agreement</h2>
        <p className="exercises__lead">
          The same films, measured by several raters or again by one, blinded and in an order of each one’s
          own.
        </p>
        <div className="leaf__actions">
          <PushButton onPress={() => file.current?.click()}>Open a study or a table</PushButton>
          <input
            ref={file}
            type="file"
            accept=".json,.csv,application/json,text/csv"
            aria-label="File of a study, or a table of readings"
            tabIndex={-1}
            className="visually-hidden"
            onChange={(event) => {
              const [chosen] = event.target.files ?? [];
              event.target.value = '';
              if (chosen !== undefined) void open(chosen);
            }}
          />
        </div>
        <p className="aside-note">A table needs the columns subject, rater and value.</p>
        {study === null ? (
          <StudySetup filmsInSet={set.films.length} onBegin={begin} />
        ) : (
          <OpenStudy room={room} study={study} onClose={() => putStudy(room, null)} />
        )}
        <PlanSheet />
      </div>
      <div>
        {table !== null ? (
          <>
            <h3 className="agreement__title">{table.name}</h3>
            <div className="leaf__actions">
              <PushButton quiet onPress={() => setTable(null)}>
                Put the table away
              </PushButton>
            </div>
            <AgreementResults readings={table.readings} truth={UNKNOWN} />
          </>
        ) : (
          study !== null && <StudyResults room={room} study={study} />
        )}
      </div>
    </div>
  );
}

function studyOf(plan: StudyPlan, inSet: Study['films'], id: string): Study {
  const seed = freshSeed();
  const films = plan.films.from === 'set' ? inSet : drawnSet(plan.films.from, plan.films.count, seed).films;
  return {
    id,
    title: plan.title,
    raters: plan.raters,
    rounds: plan.rounds,
    seed,
    // A study compares angles: a deformity would bring the normal's own error in.
    films: films.map((film) => ({ ...film, asked: 'angulation' as const, otherHand: false })),
    readings: [],
  };
}

interface OpenStudyProps {
  readonly room: Room;
  readonly study: Study;
  readonly onClose: () => void;
}

/** Who still has to measure what. */
function OpenStudy({ room, study, onClose }: OpenStudyProps) {
  const [closing, setClosing] = useState(false);
  return (
    <section className="leaf" aria-label="The open study">
      <h3>{study.title === '' ? 'The open study' : study.title}</h3>
      <p>
        {study.films.length} {study.films.length === 1 ? 'film' : 'films'}, {study.rounds}{' '}
        {study.rounds === 1 ? 'round' : 'rounds'}. Kept in this browser; save it as a file to hand it to a
        rater, and open the copy that comes back to add its readings.
      </p>
      <ul className="levels">
        {study.raters.map(({ label }) => {
          const done = study.readings.filter(({ rater }) => rater === label).length;
          return (
            <li key={label}>
              <span>
                <strong>{label}</strong>
                <small>
                  {done} of {study.films.length * study.rounds} measured
                </small>
              </span>
              {nextTurn(study, label) === null ? (
                <span>done</span>
              ) : (
                <PushButton onPress={() => beginTurn(room, label)} label={`Measure as ${label}`}>
                  Measure
                </PushButton>
              )}
            </li>
          );
        })}
      </ul>
      <div className="leaf__actions">
        <PushButton onPress={() => saveStudy(room)}>Save as a file</PushButton>
        <PushButton
          disabled={study.readings.length === 0}
          onPress={() =>
            download('readings.csv', new Blob([writeRatingsCsv(ratedReadings(study))], { type: 'text/csv' }))
          }
        >
          Readings as CSV
        </PushButton>
        {closing ? (
          <PushButton onPress={onClose}>Close it for good, unsaved readings and all</PushButton>
        ) : (
          <PushButton quiet onPress={() => (study.readings.length === 0 ? onClose() : setClosing(true))}>
            Close
          </PushButton>
        )}
      </div>
    </section>
  );
}

/** What will stand here, so that nobody plans a study for numbers that it does not give. */
function NoReadings() {
  return (
    <p className="aside-note">
      No readings yet. Here will stand what each rater read, film by film; the spread of repeats; the limits
      of agreement of any two raters; intraclass correlations with their limits; and the error against the
      truth, which is known of invented films.
    </p>
  );
}

/** The results, out of sight until everybody has measured or somebody asks: raters stay blinded. */
function StudyResults({ room, study }: { readonly room: Room; readonly study: Study }) {
  const complete = study.raters.every(({ label }) => nextTurn(study, label) === null);
  const [early, setEarly] = useState(false);
  const readings = useMemo(() => ratedReadings(study), [study]);
  const shown = (complete || early) && readings.length > 0;
  const truth = useTruth(room, study, shown);
  if (readings.length === 0) return <NoReadings />;
  if (!shown) {
    return (
      <>
        <p>The results stay out of sight until every rater has measured every film.</p>
        <PushButton onPress={() => setEarly(true)}>Show them now; I am no rater</PushButton>
      </>
    );
  }
  return <AgreementResults readings={readings} truth={truth} />;
}

/** The true angle of every film of a study, once it is wanted. */
function useTruth(room: Room, study: Study, wanted: boolean): ReadonlyMap<string, number> {
  const [truth, setTruth] = useState(UNKNOWN);
  const { films } = study;
  useEffect(() => {
    if (!wanted) return;
    let current = true;
    const look = async () => {
      const found = new Map<string, number>();
      for (const { id, spec, filmSeed, ray } of films) {
        const { truth: known } = await room.maker.known(spec, filmSeed);
        const bone = known.rays.find((one) => one.ray === ray);
        if (bone !== undefined) found.set(filmName({ films }, id), bone.projectedAngleDegrees);
      }
      if (current) setTruth(found);
    };
    look().catch((thrown: unknown) => {
      if (!current) return;
      const why = reasonOf(thrown);
      say(room.app, `The true angles could not be worked out (${why}). Open this page again.`);
    });
    return () => {
      current = false;
    };
  }, [room, films, wanted]);
  return truth;
}
