import * as cornerstone from 'cornerstone-core';
import { recordId } from '../../../src/case/document.ts';
import { ownMark } from '../../../src/drawing/scene.ts';
import { filmPoint } from '../../../src/geometry/units.ts';
import { cornerstoneAlone } from '../../canvas/cornerstone-alone.ts';
import { madeFilm } from '../../canvas/made-film.ts';
import { FILM_ID, freeAxis, standPlate } from '../../canvas/plate-stand.ts';
import { frameTimes, readBack } from './frame-time.ts';

/** What `plate.bench.ts` asks this page; times in milliseconds, of every frame. */
export interface TimedPlate {
  brightness(zoom: 'fit' | 'one-to-one'): Promise<{ readonly ours: number[]; readonly theirs: number[] }>;
  /** Stands a plate with 50 marks and says where in the page a point of the first can be taken hold of. */
  standMarks(): { readonly x: number; readonly y: number };
  /** Of each pointer move since then: its handling and the frame that follows. */
  readonly moves: number[];
}

const WIDTH = 1200;
const HEIGHT = 900;
const FRAMES = 30;
const film = madeFilm(3000, 4000, (column, row) => ((column * 7 + row * 13) % 900) + (row >> 1));

const light = (center: number) => ({
  shown: { kind: 'window', center, width: 2000, function: 'LINEAR_EXACT' } as const,
  negative: false,
});

async function brightness(zoom: 'fit' | 'one-to-one') {
  const alone = cornerstoneAlone(film, { width: WIDTH, height: HEIGHT }, { center: 1500, width: 2000 });
  if (zoom === 'one-to-one') cornerstone.setViewport(alone.element, { scale: 1 });
  const theirs = await frameTimes(alone.element, FRAMES, (frame) =>
    cornerstone.setViewport(alone.element, { voi: { windowCenter: 1500 + frame, windowWidth: 2000 } }),
  );
  alone.remove();
  const { plate, host, remove } = standPlate(WIDTH, HEIGHT);
  plate.setFilm(film, 'timed');
  if (zoom === 'one-to-one')
    plate.setView({ ...plate.currentView, magnification: 1, centre: filmPoint(1500, 2000) });
  const element = host.querySelector<HTMLElement>('.cornerstone-canvas')!.parentElement!;
  const ours = await frameTimes(element, FRAMES, (frame) => plate.setLight(light(1500 + frame)));
  remove();
  return { ours: [...ours], theirs: [...theirs] };
}

const moves: number[] = [];

function standMarks() {
  const { plate, host } = standPlate(WIDTH, HEIGHT);
  plate.setFilm(film, 'timed');
  const axes = Array.from({ length: 50 }, (_, index) => ({
    ...freeAxis('proximal-axis', [200 + 50 * index, 600], [300 + 50 * index, 3000]),
    id: recordId(`mark-${index}`),
  }));
  plate.setMarks({ filmId: FILM_ID, showAngle: false, strokes: 'reading', marks: axes.map(ownMark) });
  // The first callback of the next frame, the plate's own drawing, the last callback.
  let begun = 0;
  let handled = 0;
  let frameBegun = 0;
  window.addEventListener(
    'pointermove',
    () => {
      begun = performance.now();
      requestAnimationFrame(() => {
        frameBegun = performance.now();
      });
    },
    true,
  );
  window.addEventListener('pointermove', () => {
    handled = performance.now() - begun;
    requestAnimationFrame(() => {
      readBack(host);
      moves.push(handled + performance.now() - frameBegun);
    });
  });
  const { left, top, width, height } = host.querySelector('button')!.getBoundingClientRect();
  return { x: left + width / 2, y: top + height / 2 };
}

Object.assign(window, { timedPlate: { brightness, standMarks, moves } satisfies TimedPlate });
