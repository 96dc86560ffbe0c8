import * as cornerstone from 'cornerstone-core';
import { recordId } from '../../../src/case/document.ts';
import { ownMark } from '../../../src/drawing/scene.ts';
import { filmPoint } from '../../../src/geometry/units.ts';
import { cornerstoneAlone } from '../../canvas/cornerstone-alone.ts';
import { madeFilm } from '../../canvas/made-film.ts';
import { drawn, FILM_ID, freeAxis, standPlate } from '../../canvas/plate-stand.ts';
import { frameTimes, readBack } from './frame-time.ts';

type Zoom = 'fit' | 'one-to-one' | 'between-pixels';

/** What `plate.bench.ts` asks this page; times in milliseconds, of every frame. */
export interface TimedPlate {
  brightness(zoom: Zoom): Promise<{ readonly ours: number[]; readonly theirs: number[] }>;
  /** Frames in which the film and 50 marks are drawn anew, moved a little. */
  moved(): Promise<number[]>;
  /** Stands a plate with 50 marks and says where in the page a point of the first can be taken hold of. */
  standMarks(): Promise<{ readonly x: number; readonly y: number }>;
  /** Of each pointer move since then that moved the point: its handling and the painting that follows. */
  readonly drags: number[];
}

const WIDTH = 1200;
const HEIGHT = 900;
const FRAMES = 30;
const film = madeFilm(3000, 4000, (column, row) => ((column * 7 + row * 13) % 900) + (row >> 1));

const light = (center: number) => ({
  shown: { kind: 'window', center, width: 2000, function: 'LINEAR_EXACT' } as const,
  negative: false,
});

/** On whole pixels of the screen, and a part of a pixel off them. */
const CENTRES = { 'one-to-one': filmPoint(1500, 2000), 'between-pixels': filmPoint(1500.3, 2000.7) } as const;

const elementOf = (host: HTMLElement) =>
  host.querySelector<HTMLElement>('.cornerstone-canvas')!.parentElement!;

async function brightness(zoom: Zoom) {
  const alone = cornerstoneAlone(film, { width: WIDTH, height: HEIGHT }, { center: 1500, width: 2000 });
  if (zoom !== 'fit') cornerstone.setViewport(alone.element, { scale: 1 });
  if (zoom === 'between-pixels') cornerstone.setViewport(alone.element, { translation: { x: 0.3, y: 0.7 } });
  const theirs = await frameTimes(alone.element, FRAMES, (frame) =>
    cornerstone.setViewport(alone.element, { voi: { windowCenter: 1500 + frame, windowWidth: 2000 } }),
  );
  alone.remove();
  const { plate, host, remove } = standPlate(WIDTH, HEIGHT);
  plate.setFilm(film, 'timed');
  if (zoom !== 'fit') plate.setView({ ...plate.currentView, magnification: 1, centre: CENTRES[zoom] });
  const ours = await frameTimes(elementOf(host), FRAMES, (frame) => plate.setLight(light(1500 + frame)));
  remove();
  return { ours: [...ours], theirs: [...theirs] };
}

function standWithMarks() {
  const stand = standPlate(WIDTH, HEIGHT);
  stand.plate.setFilm(film, 'timed');
  const axes = Array.from({ length: 50 }, (_, index) => ({
    ...freeAxis('proximal-axis', [200 + 50 * index, 600], [300 + 50 * index, 3000]),
    id: recordId(`mark-${index}`),
  }));
  stand.plate.setMarks({ filmId: FILM_ID, showAngle: false, strokes: 'reading', marks: axes.map(ownMark) });
  return stand;
}

async function moved() {
  const { plate, host, remove } = standWithMarks();
  const { centre, ...view } = plate.currentView;
  const times = await frameTimes(elementOf(host), FRAMES, (frame) =>
    plate.setView({ ...view, centre: filmPoint(centre.column + 4 * (frame + 1), centre.row) }),
  );
  remove();
  return [...times];
}

const drags: number[] = [];

async function standMarks() {
  const { host, told } = standWithMarks();
  // The buttons of the points come with the first painting.
  await drawn();
  let begun = 0;
  /** Milliseconds that the handling of a move took; null: none waits for its painting. */
  let handled: number | null = null;
  let previews = 0;
  window.addEventListener(
    'pointermove',
    () => {
      begun = performance.now();
      previews = told.onPreview.length;
    },
    true,
  );
  window.addEventListener('pointermove', () => {
    // A move that moved no point is not what is measured.
    if (told.onPreview.length > previews) handled = performance.now() - begun;
  });
  // cornerstone calls this first in each of its frames; the plate paints in it, and all is done by the next microtask.
  host.addEventListener(
    cornerstone.EVENTS.PRE_RENDER,
    () => {
      if (handled === null) return;
      const sofar = handled;
      handled = null;
      const painting = performance.now();
      queueMicrotask(() => {
        readBack(host);
        drags.push(sofar + performance.now() - painting);
      });
    },
    true,
  );
  // The film is the first thing that the keyboard reaches; the points follow.
  const { left, top, width, height } = host.querySelectorAll('button')[1]!.getBoundingClientRect();
  return { x: left + width / 2, y: top + height / 2 };
}

Object.assign(window, { timedPlate: { brightness, moved, standMarks, drags } satisfies TimedPlate });
