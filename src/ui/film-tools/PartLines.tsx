import { lazy, Suspense, useState } from 'react';
import type { FilmRecord } from '../../case/document.ts';
import { placeOf } from '../../case/film-place.ts';
import type { BenchActions } from '../actions.ts';
import { PushButton } from '../controls/controls.tsx';
import { WholeNumber } from '../controls/WholeNumber.tsx';
import { Line } from '../worksheet/Section.tsx';
import { type FilmToolsState, maybePhotograph } from './film-tools.ts';

/** Fetched when they are first wanted: most films are neither split nor straightened. */
const SplitSheet = lazy(() => import('./SplitSheet.tsx').then((module) => ({ default: module.SplitSheet })));
const StraightenSheet = lazy(() =>
  import('./StraightenSheet.tsx').then((module) => ({ default: module.StraightenSheet })),
);

interface PartLinesProps {
  readonly film: FilmRecord;
  readonly tools: FilmToolsState;
  readonly actions: BenchActions;
}

/** Which picture of its file the film is, and which part of it. */
export function PartLines({ film, tools, actions }: PartLinesProps) {
  const [sheet, setSheet] = useState<'split' | 'straighten' | null>(null);
  const { part } = placeOf(film);
  const close = () => setSheet(null);
  return (
    <>
      {tools.frames > 1 && <PictureLine film={film} tools={tools} actions={actions} />}
      {part === null ? (
        <Line
          name="Parts of the picture"
          note="Two exposures on one plate, or a photograph taken at a slant."
        >
          <PushButton onPress={() => setSheet('split')}>Split</PushButton>
          {maybePhotograph(film) && (
            <PushButton onPress={() => setSheet('straighten')}>Straighten</PushButton>
          )}
        </Line>
      ) : (
        <Line
          name={part.kind === 'rectangle' ? 'Part of a picture' : 'Straightened by its corners'}
          note={`${part.columns} × ${part.rows} pixels`}
        >
          <PushButton quiet onPress={tools.actions.addWhole}>
            Open the whole picture
          </PushButton>
        </Line>
      )}
      {part?.kind !== 'corners' && maybePhotograph(film) && <SlantLine film={film} tools={tools} />}
      <Line name="This film">
        <PushButton quiet onPress={() => actions.removeFilm(film.id)}>
          Take film out
        </PushButton>
      </Line>
      <Suspense fallback={null}>
        {sheet === 'split' && (
          <SplitSheet
            still={tools.actions.still}
            wholeStays={tools.hasMarks}
            onSplit={tools.actions.split}
            onClose={close}
          />
        )}
        {sheet === 'straighten' && (
          <StraightenSheet
            still={tools.actions.still}
            onStraighten={tools.actions.straighten}
            onLeave={tools.actions.leaveSlanted}
            onClose={close}
          />
        )}
      </Suspense>
    </>
  );
}

function SlantLine({ film, tools }: Pick<PartLinesProps, 'film' | 'tools'>) {
  const { slant } = film;
  if (slant === undefined) {
    return (
      <Line name="A photograph?" note="Of a screen or of film on a box, taken from the side.">
        <PushButton quiet onPress={() => tools.actions.leaveSlanted(null)}>
          It is slanted
        </PushButton>
      </Line>
    );
  }
  return (
    <Line
      name="Photographed at a slant"
      note={
        slant.upToDegrees === null
          ? 'how much this does to angles is not known'
          : `angles may be wrong by up to ${slant.upToDegrees.toFixed(1)}°`
      }
    >
      <PushButton quiet onPress={tools.actions.notSlanted}>
        It is not
      </PushButton>
    </Line>
  );
}

function PictureLine({ film, tools }: PartLinesProps) {
  const { frame } = placeOf(film);
  const [wanted, setWanted] = useState(frame + 1);
  return (
    <Line name={`Picture ${frame + 1} of ${tools.frames}`} note="The file holds several.">
      <WholeNumber
        label="Another picture of the file"
        value={wanted}
        min={1}
        max={tools.frames}
        onChange={(number) => setWanted(number ?? frame + 1)}
      />
      <PushButton disabled={wanted === frame + 1} onPress={() => tools.actions.addPicture(wanted - 1)}>
        Open it too
      </PushButton>
    </Line>
  );
}
