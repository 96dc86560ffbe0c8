import { useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import { useStore } from 'zustand';
import { axesOnFilm } from '../../case/axes.ts';
import { alignedPair, type Upright, uprightFilm } from '../../case/course/align.ts';
import type { CaseDocument, FilmRecord, RecordId } from '../../case/document.ts';
import { pictureKey } from '../../case/film-place.ts';
import { Choice, Pick, PushButton, SwitchButton } from '../../ui/controls/controls.tsx';
import { loadFilm } from '../films/film-actions.ts';
import type { Shell } from '../shell.ts';
import { AlignedFilm } from './aligned-film.tsx';

interface CompareFilmsProps {
  readonly shell: Shell;
  readonly document: CaseDocument;
  /** Films of the injured hand in the order of treatment, with their names. */
  readonly films: readonly { readonly record: FilmRecord; readonly name: string }[];
}

const LAYOUTS = [
  { value: 'side-by-side', name: 'Side by side' },
  { value: 'blink', name: 'On one another' },
] as const;

/** Below three a second, which nobody should be shown (WCAG 2.3.1). */
const BLINK_MS = 900;

const ANCHOR_WORDS: Readonly<Record<Upright['anchor'], string>> = {
  'fracture-level': 'the marked level of the fracture',
  'distal-fragment': 'the near end of the distal axis',
  'axis-end': 'the end of the proximal axis',
};

/** Any two films with their proximal axes upright, side by side or on one another. */
export function CompareFilms({ shell, document, films }: CompareFilmsProps) {
  const alignable = useMemo(
    () =>
      films.flatMap((film) => {
        const upright = uprightFilm(document, film.record.id);
        return upright === null ? [] : [{ ...film, upright }];
      }),
    [films, document],
  );
  const [chosen, setChosen] = useState<readonly [RecordId | null, RecordId | null]>([null, null]);
  const [layout, setLayout] = useState<(typeof LAYOUTS)[number]['value']>('side-by-side');
  const [slide, setSlide] = useState(0);
  const first = alignable.find(({ record }) => record.id === chosen[0]) ?? whatWasHeld(alignable);
  const second = alignable.find(({ record }) => record.id === chosen[1]) ?? alignable.at(-1);
  if (first === undefined || second === undefined || alignable.length < 2) {
    return (
      <section className="compare" aria-label="Two films">
        <h3>Two films</h3>
        <p>
          Place a proximal axis on two films of the injured hand, and they can be laid on one another here.
        </p>
      </section>
    );
  }
  const pair = alignedPair(first.upright, second.upright);
  const options = alignable.map(({ record, name }) => ({ value: record.id, name }));
  const unitsHigh = pair.rescaled ? first.upright.proximalLength * 4 : MILLIMETRES_HIGH;
  const step = unitsHigh / 100;
  const picture = (which: 'first' | 'second') => {
    const { record, name } = which === 'first' ? first : second;
    return (
      <LoadedFilm
        shell={shell}
        record={record}
        document={document}
        upright={pair[which]}
        unitsHigh={unitsHigh}
        slide={which === 'second' ? slide : 0}
        description={`The ${name}, its proximal axis upright`}
      />
    );
  };
  return (
    <section className="compare" aria-label="Two films">
      <header className="compare__head">
        <h3>Two films</h3>
        <Pick
          label="First"
          options={options}
          value={first.record.id}
          onChange={(id) => setChosen([id, second.record.id])}
        />
        <Pick
          label="Second"
          options={options}
          value={second.record.id}
          onChange={(id) => {
            setChosen([first.record.id, id]);
            setSlide(0);
          }}
        />
        <Choice label="Layout" labelHidden options={LAYOUTS} value={layout} onChange={setLayout} />
      </header>
      <div className="compare__body">
        {layout === 'side-by-side' ? (
          <div className="compare__pair">
            <figure>
              {picture('first')}
              <figcaption>{first.name}</figcaption>
            </figure>
            <figure>
              {picture('second')}
              <figcaption>{second.name}</figcaption>
            </figure>
          </div>
        ) : (
          <Blinking first={picture('first')} second={picture('second')} names={[first.name, second.name]} />
        )}
        <div className="compare__slide">
          <PushButton
            label="Slide down: the second film, towards the wrist"
            onPress={() => setSlide(slide - step)}
          >
            Slide down
          </PushButton>
          <PushButton
            label="Slide up: the second film, towards the fingertip"
            onPress={() => setSlide(slide + step)}
          >
            Slide up
          </PushButton>
          <small>
            Turned so that the proximal axes are upright and brought together at{' '}
            {ANCHOR_WORDS[first.upright.anchor]}
            {first.upright.anchor === second.upright.anchor
              ? ''
              : ` and ${ANCHOR_WORDS[second.upright.anchor]}`}
            .
            {pair.mirrored
              ? ' The second is shown mirrored, so that both have the same side on the same side.'
              : ''}
            {pair.rescaled
              ? ' Not both have a scale: the second is magnified until the proximal axes are as long as one another, so sizes cannot be compared.'
              : ' Both are at the same scale.'}
          </small>
        </div>
      </div>
    </section>
  );
}

/** The film after the last reduction, against which a loss shows; else the first. */
const whatWasHeld = <Film extends { readonly record: FilmRecord }>(
  films: readonly Film[],
): Film | undefined =>
  films.slice(0, -1).findLast(({ record }) => record.moment === 'after-reduction') ?? films[0];

/** A metacarpal with its finger's first bone. */
const MILLIMETRES_HIGH = 110;

interface BlinkingProps {
  readonly first: React.ReactNode;
  readonly second: React.ReactNode;
  readonly names: readonly [string, string];
}

/** One film over the other; the same spot is seen in both by switching. */
function Blinking({ first, second, names }: BlinkingProps) {
  const [showsSecond, setShowsSecond] = useState(false);
  const [running, setRunning] = useState(false);
  const lessMotion = useLessMotion();
  const moves = running && !lessMotion;
  useEffect(() => {
    if (!moves) return;
    const timer = setInterval(() => setShowsSecond((before) => !before), BLINK_MS);
    return () => clearInterval(timer);
  }, [moves]);
  return (
    <div className="compare__blink">
      <figure>
        <div className="compare__stack">
          <div data-shown={!showsSecond || undefined}>{first}</div>
          <div data-shown={showsSecond || undefined}>{second}</div>
        </div>
        <figcaption aria-live={moves ? 'off' : 'polite'}>{names[showsSecond ? 1 : 0]}</figcaption>
      </figure>
      <div className="compare__buttons">
        <PushButton next onPress={() => setShowsSecond(!showsSecond)}>
          Show the other
        </PushButton>
        {lessMotion ? (
          <small>This computer asks for less motion, so the films change only when you say so.</small>
        ) : (
          <SwitchButton on={running} onChange={setRunning}>
            Blink by itself
          </SwitchButton>
        )}
      </div>
    </div>
  );
}

const LESS_MOTION = '(prefers-reduced-motion: reduce)';

function useLessMotion(): boolean {
  return useSyncExternalStore(
    (changed) => {
      const query = matchMedia(LESS_MOTION);
      query.addEventListener('change', changed);
      return () => query.removeEventListener('change', changed);
    },
    () => matchMedia(LESS_MOTION).matches,
  );
}

interface LoadedFilmProps {
  readonly shell: Shell;
  readonly record: FilmRecord;
  readonly document: CaseDocument;
  readonly upright: Upright;
  readonly unitsHigh: number;
  readonly slide: number;
  readonly description: string;
}

/** Only the films that are looked at are in memory. */
function LoadedFilm({ shell, record, document, ...rest }: LoadedFilmProps) {
  const film = useStore(shell.store, (state) => state.films.get(pictureKey(record)) ?? null);
  const light = useStore(shell.store, (state) => state.lights.get(record.id) ?? null);
  useEffect(() => {
    if (film === null) void loadFilm(shell, record);
  }, [shell, record, film]);
  const axes = useMemo(() => axesOnFilm(document, record.id), [document, record.id]);
  if (film === null) return <div className="aligned">Opening the film…</div>;
  return <AlignedFilm film={film} light={light} axes={axes} {...rest} />;
}
