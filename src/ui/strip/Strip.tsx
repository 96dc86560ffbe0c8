import { type DragEvent, useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { FilmRecord, RecordId } from '../../case/document.ts';
import { formatDay } from '../../case/format.ts';
import { linearScale } from '../../geometry/linear-scale.ts';
import { VIEW_WORDS } from '../../tolerance/limit-method.ts';
import type { BenchActions } from '../actions.ts';

export interface StripFilm {
  readonly record: FilmRecord;
  /** Its place in the case, from 1. */
  readonly number: number;
  /** Object URL of a small picture; null while it is being made. */
  readonly thumbnail: string | null;
}

interface StripProps {
  readonly films: readonly StripFilm[];
  readonly chosen: RecordId | null;
  /** The film that stands beside the chosen one. */
  readonly beside: RecordId | null;
  /** Opening a film is what comes next. */
  readonly openNext: boolean;
  /** The film that what comes next is to be done on. */
  readonly nextFilm: RecordId | null;
  readonly actions: BenchActions;
}

const ROWS = [
  { hand: 'injured', name: 'Injured' },
  { hand: 'other', name: 'Other' },
] as const;

/** From one film to the next on the same lane, px: a film of 54, and for fingers the sign of 44 beside it. */
const ROOM_FOR_POINTER = 58;
const ROOM_FOR_FINGERS = 104;

/** Days that are always in sight, so that an early case does not stretch over one day. */
const SHORTEST_SPAN_DAYS = 14;

/**
 * The case's films by day since the injury, the injured hand above the other. Files dropped on it join the
 * case at the day under the pointer.
 */
export function Strip({ films, chosen, beside, openNext, nextFilm, actions }: StripProps) {
  const [dropDay, setDropDay] = useState<number | null>(null);
  const lane = useRef<HTMLDivElement>(null);
  const width = useWidth(lane);
  const room = useTouch() ? ROOM_FOR_FINGERS : ROOM_FOR_POINTER;
  const last = Math.max(SHORTEST_SPAN_DAYS, ...films.map((film) => film.record.day ?? 0));
  const x = linearScale([0, last], [34, Math.max(120, width - 48)]);
  const dayAt = (event: DragEvent) => {
    const left = lane.current?.getBoundingClientRect().left ?? 0;
    return Math.max(0, Math.round(x.valueAt(event.clientX - left)));
  };
  const drop = (event: DragEvent, hand: FilmRecord['hand']) => {
    event.preventDefault();
    event.stopPropagation();
    setDropDay(null);
    actions.openFiles(event.dataTransfer, { hand, day: dayAt(event) });
  };
  const isNext = ({ record }: StripFilm) => chosen !== null && record.id !== chosen && record.id === nextFilm;
  const rows = ROWS.filter((row) => row.hand === 'injured' || films.some((f) => f.record.hand === 'other'));
  return (
    <section className="strip" aria-label="Films by day since the injury">
      <div className="strip__names" aria-hidden="true">
        {rows.map((row) => (
          <span key={row.hand}>{row.name}</span>
        ))}
        <span className="strip__unit">days</span>
      </div>
      <div className="strip__lanes" ref={lane}>
        {rows.map((row) => (
          // biome-ignore lint/a11y/noStaticElementInteractions: dropping files is also done by the button "Open films"
          <div
            key={row.hand}
            className="strip__lane"
            onDragOver={(event) => {
              event.preventDefault();
              setDropDay(dayAt(event));
            }}
            onDragLeave={() => setDropDay(null)}
            onDrop={(event) => drop(event, row.hand)}
          >
            {placeFilms(
              films.filter((film) => film.record.hand === row.hand),
              (day) => x(day),
              room,
            ).map(({ film, left, aside }) => (
              <div key={film.record.id} className="strip__place" style={{ left }}>
                <button
                  type="button"
                  className="strip__film"
                  aria-pressed={film.record.id === chosen}
                  onClick={() => actions.chooseFilm(film.record.id)}
                >
                  {film.thumbnail !== null && <img src={film.thumbnail} alt="" />}
                  {aside && !isNext(film) && (
                    <span className="strip__day" aria-hidden="true">
                      {film.record.day === null ? 'no day' : formatDay(film.record.day)}
                    </span>
                  )}
                  <span className="strip__label">
                    {film.number}
                    <span className="visually-hidden">
                      {`. ${whatItShows(film.record)}, ${row.name.toLowerCase()} hand, ${formatDay(film.record.day)}`}
                    </span>
                  </span>
                </button>
                {isNext(film) && <span className="strip__next">Next</span>}
                {chosen !== null && film.record.id !== chosen && (
                  <button
                    type="button"
                    className="strip__beside"
                    aria-pressed={film.record.id === beside}
                    aria-label={`Film ${film.number} beside the one shown`}
                    title={film.record.id === beside ? 'Take away' : 'Show beside'}
                    onClick={() => actions.showBeside(film.record.id === beside ? null : film.record.id)}
                  >
                    <BesideSign />
                  </button>
                )}
              </div>
            ))}
          </div>
        ))}
        <svg className="strip__axis" width={width} height="24" aria-hidden="true">
          <path d={`M${x(0)} 4H${x(last)}`} />
          {x.ticks(Math.min(last, 8)).map((day) => (
            <g key={day} transform={`translate(${x(day)} 0)`}>
              <path d="M0 1v6" />
              <text y="20">{day}</text>
            </g>
          ))}
          {dropDay !== null && (
            <circle cx={x(Math.min(dropDay, last))} cy="4" r="5" className="strip__drop" />
          )}
        </svg>
      </div>
      <OpenFilms next={openNext} actions={actions} />
    </section>
  );
}

const whatItShows = ({ shows, view }: FilmRecord): string =>
  shows === 'fist' ? 'Photograph of the fist' : `Film: ${view === null ? 'view not said' : VIEW_WORDS[view]}`;

/** Two plates side by side, the second one filled. */
function BesideSign() {
  return (
    <svg viewBox="0 0 24 24" aria-hidden="true">
      <rect x="3.5" y="6.5" width="7" height="11" />
      <rect x="13.5" y="6.5" width="7" height="11" className="strip__beside-filled" />
    </svg>
  );
}

/** From its day on the axis, in px: farther off, a film says its day itself. */
const NEAR_ITS_DAY = 8;

/** Films of one day stand side by side, never on top of one another; films without a day follow the last. */
function placeFilms(films: readonly StripFilm[], at: (day: number) => number, room: number) {
  const sorted = [...films].sort(
    (one, other) => (one.record.day ?? 1e6) - (other.record.day ?? 1e6) || one.number - other.number,
  );
  let free = 0;
  return sorted.map((film) => {
    const wanted = film.record.day === null ? free : at(film.record.day) - 27;
    const left = Math.max(wanted, free);
    free = left + room;
    return { film, left, aside: film.record.day === null || left - wanted > NEAR_ITS_DAY };
  });
}

function OpenFilms({ next, actions }: { next: boolean; actions: BenchActions }) {
  return (
    <div className="strip__open">
      <FileButton name="Open films" label="Film files" next={next} actions={actions} />
      <FileButton name="a folder" label="Folder of films" folder actions={actions} />
      <small>or drop or paste them</small>
    </div>
  );
}

/** Not in React's list of attributes, and understood by every browser. */
const FOLDERS: object = { webkitdirectory: '' };

interface FileButtonProps {
  readonly name: string;
  readonly label: string;
  readonly folder?: boolean;
  readonly next?: boolean;
  readonly actions: BenchActions;
}

function FileButton({ name, label, folder, next, actions }: FileButtonProps) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button
        type="button"
        className={folder ? 'link-button' : 'button'}
        data-next={next || undefined}
        aria-label={folder ? 'Open a folder' : name}
        onClick={() => input.current?.click()}
      >
        {name}
      </button>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        aria-label={label}
        {...(folder ? FOLDERS : {})}
        onChange={(event) => {
          actions.openFiles([...(event.currentTarget.files ?? [])], { hand: 'injured', day: null });
          event.currentTarget.value = '';
        }}
      />
    </>
  );
}

const COARSE = '(pointer: coarse)';

function watchTouch(tell: () => void): () => void {
  const query = matchMedia(COARSE);
  query.addEventListener('change', tell);
  return () => query.removeEventListener('change', tell);
}

/** Whether the first pointer of this machine is a finger. */
const useTouch = (): boolean => useSyncExternalStore(watchTouch, () => matchMedia(COARSE).matches);

function useWidth(element: React.RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(600);
  useEffect(() => {
    const node = element.current;
    if (node === null) return;
    const observer = new ResizeObserver(([entry]) => entry && setWidth(entry.contentRect.width));
    observer.observe(node);
    return () => observer.disconnect();
  }, [element]);
  return width;
}
