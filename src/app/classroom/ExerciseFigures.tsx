import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { RecordId } from '../../case/document.ts';
import type { MarkedFilm } from '../../case/film-marks.ts';
import { pictureKey } from '../../case/film-place.ts';
import type { Reveal } from '../../classroom/reveal.ts';
import type { FilmSegment } from '../../drawing/scene.ts';
import { toFilm } from '../../geometry/spacing.ts';
import type { RayTruth } from '../../phantom/truth.ts';
import { Choice } from '../../ui/controls/controls.tsx';
import type { ModelAxes } from './model-axes.ts';
import { RevealPlate } from './RevealPlate.tsx';
import type { Running } from './room.ts';

/** What is shown of a film once its truth is. */
export interface Revealed {
  readonly found: Reveal;
  /** Why there is none, as a sentence, where the tracer gives no axes. */
  readonly model: ModelAxes | string;
}

/** Which film of the exercise is on the plate. */
export function FilmChoice({
  films,
  chosen,
  onChoose,
}: {
  readonly films: readonly MarkedFilm[];
  readonly chosen: RecordId | null;
  readonly onChoose: (id: RecordId) => void;
}) {
  const serial = films.every(({ film }) => film.hand === 'injured');
  return (
    <Choice
      label="Film on the plate"
      labelHidden
      options={films.map(({ film }, index) => ({
        value: film.id,
        name: serial
          ? `day ${film.day}`
          : film.hand === 'injured'
            ? 'injured hand'
            : index === 0
              ? 'film'
              : 'other hand',
      }))}
      value={chosen}
      onChange={onChoose}
    />
  );
}

/** The axes a reveal holds true, on the film. */
const trueAxesOf = ({ proximal, distal, bone }: Reveal) => ({
  proximal: {
    from: toFilm(proximal.trueAxis.from, bone.scale),
    to: toFilm(proximal.trueAxis.to, bone.scale),
  },
  distal: { from: toFilm(distal.trueAxis.from, bone.scale), to: toFilm(distal.trueAxis.to, bone.scale) },
});

interface TruthFigureProps {
  readonly running: Running;
  readonly shown: MarkedFilm;
  readonly bone: RayTruth;
  readonly trueAxes: Readonly<Record<'proximal' | 'distal', FilmSegment>>;
  readonly model: ModelAxes | null;
}

/** The film with the true axes over whatever has been placed. */
export function TruthFigure({ running, shown, bone, trueAxes, model }: TruthFigureProps) {
  const { store } = running.session.shell;
  const picture = useStore(store, (state) => state.films.get(pictureKey(shown.film)) ?? null);
  const projector = useStore(store, (state) => state.theme === 'projector');
  return (
    <>
      <div className="plate">
        {picture !== null && (
          <RevealPlate
            film={picture}
            filmId={shown.film.id}
            marks={Object.values(shown.marks)}
            bone={bone}
            trueAxes={trueAxes}
            model={model}
            strokes={projector ? 'projector' : 'reading'}
          />
        )}
      </div>
      <figcaption className="caption">
        <p className="caption__text">
          Your axes in orange and, dashed, in blue; the truth white and dotted
          {model === null ? '' : '; the tracer’s thin and white'}. Wheel or pinch magnifies.
        </p>
      </figcaption>
    </>
  );
}

interface RevealedFigureProps {
  readonly running: Running;
  readonly shown: MarkedFilm;
  readonly truth: Revealed;
}

export function RevealedFigure({ running, shown, truth: { found, model } }: RevealedFigureProps) {
  const trueAxes = useMemo(() => trueAxesOf(found), [found]);
  return (
    <TruthFigure
      running={running}
      shown={shown}
      bone={found.bone.truth}
      trueAxes={trueAxes}
      model={typeof model === 'string' ? null : model}
    />
  );
}

interface PeekFigureProps {
  readonly running: Running;
  readonly shown: MarkedFilm;
  readonly bone: RayTruth;
}

/** The truth before measuring, where the set allows it. */
export function PeekFigure({ running, shown, bone }: PeekFigureProps) {
  const trueAxes = useMemo(() => ({ proximal: bone.proximalAxis, distal: bone.distalAxis }), [bone]);
  return <TruthFigure running={running} shown={shown} bone={bone} trueAxes={trueAxes} model={null} />;
}
