import { useEffect, useMemo, useState } from 'react';
import { createPortal } from 'react-dom';
import { useStore } from 'zustand';
import type { CaseDocument, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { pictureKey } from '../../case/film-place.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { demonstrationSteps } from '../../classroom/demonstration.ts';
import { exerciseOf, rayWords } from '../../classroom/exercise.ts';
import type { SetFilm } from '../../classroom/film-set.ts';
import { modelAnswer } from '../../classroom/model-answer.ts';
import { defaultLight } from '../../film/light.ts';
import { reasonOf } from '../../geometry/result.ts';
import { Handout, type KeptStep } from '../../ui/classroom/Handout.tsx';
import { PushButton } from '../../ui/controls/controls.tsx';
import { assessmentOf } from '../assessment.ts';
import { download } from '../download.ts';
import { allSets } from '../limits/sets.ts';
import { say } from '../shell.ts';
import { type Demonstrated, pictureOfStep } from './keepsake.ts';
import type { Room } from './room.ts';
import { Stage } from './Stage.tsx';
import { beginSession, type Session } from './session.ts';
import { recordVideo, videoType } from './video.ts';

/** Chooses a film, shows its measurement to a class, and keeps it as a handout or a video. */
export function DemonstrationPage({ room }: { readonly room: Room }) {
  const demonstrated = useStore(room.store, (state) => state.demonstrated);
  const [handout, setHandout] = useState(false);
  const localSets = useStore(room.app.store, (state) => state.localSets);
  const limitSets = allSets(localSets);
  const steps = useMemo(
    () =>
      demonstrated === null
        ? []
        : demonstrationSteps(
            demonstrated.document,
            assessmentOf(demonstrated.document, limitSets),
            demonstrated.record.id,
          ),
    [demonstrated, limitSets],
  );
  const leave = useMemo(
    () => () => {
      setHandout(false);
      room.store.setState({ demonstrated: null });
    },
    [room],
  );
  if (demonstrated === null) return <ChooseFilm room={room} />;
  if (handout) {
    return (
      <HandoutPage
        shown={demonstrated}
        steps={steps}
        limitSets={limitSets}
        onBack={() => setHandout(false)}
      />
    );
  }
  return createPortal(
    <Stage
      shown={demonstrated}
      steps={steps}
      limitSets={limitSets}
      onHandout={() => setHandout(true)}
      onLeave={leave}
    />,
    document.body,
  );
}

function ChooseFilm({ room }: { readonly room: Room }) {
  const set = useStore(room.store, (state) => state.set);
  const draft = useStore(room.store, (state) => state.draft);
  const measured = useStore(room.app.store, (state) =>
    state.chosenFilm === null ? 0 : axesOn(state.caseState.document, state.chosenFilm),
  );
  const [waiting, setWaiting] = useState(false);
  const begin = async (film: SetFilm) => {
    setWaiting(true);
    try {
      const shown = await modelMeasured(room, film);
      room.store.setState({ demonstrated: shown });
    } catch (thrown) {
      const why = reasonOf(thrown);
      say(room.app, `The film could not be drawn (${why}). Choose it again.`);
    } finally {
      setWaiting(false);
    }
  };
  return (
    <div className="choose-film">
      <h2>Demonstration</h2>
      <p className="exercises__lead">
        A measurement step by step on the projector: large strokes, a spotlight, a pointer that fades. It is
        stepped by the keyboard or a presenter’s remote, and kept as a handout or a video. No name, file or
        date is on screen.
      </p>
      {waiting && <p role="status">The film is being drawn…</p>}
      <ul className="levels">
        <li>
          <span>
            <strong>The film being made</strong>
            <small>{`${rayWords(draft.ray)}, measured as its truth says`}</small>
          </span>
          <PushButton
            disabled={waiting}
            onPress={() => void begin({ ...draft, id: 'demonstration', title: '' })}
            label="Demonstrate the film being made"
          >
            Demonstrate
          </PushButton>
        </li>
        {set.films.map((film, index) => (
          <li key={film.id}>
            <span>
              <strong>{film.title === '' ? `Film ${index + 1}` : film.title}</strong>
              <small>from the set, measured as its truth says</small>
            </span>
            <PushButton
              disabled={waiting}
              onPress={() => void begin(film)}
              label={`Demonstrate film ${index + 1} of the set`}
            >
              Demonstrate
            </PushButton>
          </li>
        ))}
        <li>
          <span>
            <strong>The film on the bench</strong>
            <small>
              {measured < 2
                ? 'Place both axes on the bench first; the steps show your own lines.'
                : 'With your own lines. Its pixels are shown as they are: use a film without text burned into it, and only with the consent your place of work asks for.'}
            </small>
          </span>
          <PushButton
            disabled={waiting || measured < 2}
            onPress={() => demonstrateBench(room)}
            label="Demonstrate the film on the bench"
          >
            Demonstrate
          </PushButton>
        </li>
      </ul>
    </div>
  );
}

/** How many of the two axes are placed on a film. */
const axesOn = (document: CaseDocument, filmId: RecordId): number => {
  const marks = markedFilms(document).find(({ film }) => film.id === filmId)?.marks ?? {};
  return [marks['proximal-axis'], marks['distal-axis']].filter((mark) => mark !== undefined).length;
};

/** An invented film with the marks of its model answer. */
async function modelMeasured(room: Room, film: SetFilm): Promise<Demonstrated> {
  const exercise = exerciseOf({ ...film, otherHand: false });
  const session: Session = beginSession(room.app, room.maker, exercise);
  await session.ready;
  const { caseState, films } = session.shell.store.getState();
  const [first] = markedFilms(caseState.document);
  const picture = first === undefined ? undefined : films.get(pictureKey(first.film));
  if (first === undefined || picture === undefined) throw new Error('the film is missing');
  const known = await room.maker.known(film.spec, film.filmSeed);
  return {
    document: modelAnswer(caseState.document, first.film, film.ray, known),
    record: first.film,
    film: picture,
    light: defaultLight(picture),
  };
}

/** The chosen film of the case on the bench, with the lines placed there. Its label and its dates stay there. */
function demonstrateBench({ app, store }: Room): void {
  const { caseState, chosenFilm, films, lights } = app.store.getState();
  const marked = markedFilms(caseState.document).find(({ film }) => film.id === chosenFilm);
  const picture = marked === undefined ? undefined : films.get(pictureKey(marked.film));
  if (marked === undefined || picture === undefined) {
    say(app, 'The film on the bench is not decoded yet. Look at it there, then come back.');
    return;
  }
  const { document } = caseState;
  const injury = { ...injuryOf(document), label: '' };
  const record = { ...marked.film, day: null };
  store.setState({
    demonstrated: {
      document: { ...document, records: { ...document.records, [injury.id]: injury, [record.id]: record } },
      record,
      film: { ...picture, spacing: record.spacing },
      light: lights.get(record.id) ?? defaultLight(picture),
    },
  });
}

/** A step's picture as the page shows it, and as the video takes it. */
interface DrawnStep {
  readonly address: string;
  readonly bitmap: ImageBitmap;
}

interface HandoutPageProps {
  readonly shown: Demonstrated;
  readonly steps: ReturnType<typeof demonstrationSteps>;
  readonly limitSets: ReturnType<typeof allSets>;
  readonly onBack: () => void;
}

const NO_VIDEO = 'This browser writes no video. Print the handout, or save its pictures.';

function HandoutPage({ shown, steps, limitSets, onBack }: HandoutPageProps) {
  const [pictures, setPictures] = useState<readonly DrawnStep[]>([]);
  const [video, setVideo] = useState(videoType() === null ? NO_VIDEO : 'A video takes four seconds a step.');
  const [recording, setRecording] = useState(false);
  const [missing, setMissing] = useState<string | null>(null);
  useEffect(() => {
    let current = true;
    const made: DrawnStep[] = [];
    const draw = async () => {
      await document.fonts.ready;
      for (const step of steps) {
        const drawn = pictureOfStep(shown, step, limitSets);
        if (!current) return;
        if (!drawn.ok) {
          setMissing(
            'A step could not be drawn: the film is too large for this browser. Demonstrate a smaller one.',
          );
          return;
        }
        const png = await drawn.value.convertToBlob({ type: 'image/png' });
        made.push({ address: URL.createObjectURL(png), bitmap: await createImageBitmap(png) });
        if (current) setPictures([...made]);
      }
    };
    setMissing(null);
    draw().catch((thrown: unknown) => {
      const why = reasonOf(thrown);
      if (current) setMissing(`A step could not be drawn (${why}). Go back and open the handout again.`);
    });
    return () => {
      current = false;
      for (const { address, bitmap } of made) {
        URL.revokeObjectURL(address);
        bitmap.close();
      }
    };
  }, [shown, steps, limitSets]);

  const kept: readonly KeptStep[] = steps.map((step, index) => ({
    step,
    picture: pictures[index]?.address ?? null,
  }));
  const save = async () => {
    setRecording(true);
    const frames = steps.flatMap((step, index) => {
      const picture = pictures[index]?.bitmap;
      return picture === undefined ? [] : [{ step, picture }];
    });
    const done = await recordVideo(frames, (index) =>
      setVideo(`Recording step ${index + 1} of ${frames.length}…`),
    ).finally(() => setRecording(false));
    if (!done.ok) {
      setVideo(done.error.why);
      return;
    }
    setVideo('The video was handed to the browser to save.');
    download(`demonstration.${done.value.type.includes('mp4') ? 'mp4' : 'webm'}`, done.value);
  };
  return (
    <Handout
      title="Measuring step by step"
      kept={kept}
      video={video}
      missing={missing}
      canRecord={videoType() !== null && !recording}
      onPrint={() => window.print()}
      onVideo={() =>
        void save().catch((thrown: unknown) => {
          const why = reasonOf(thrown);
          setVideo(`The video broke off (${why}). Record it again, print the handout, or save its pictures.`);
        })
      }
      onBack={onBack}
    />
  );
}
