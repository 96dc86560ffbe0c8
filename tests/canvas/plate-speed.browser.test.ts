import * as cornerstone from 'cornerstone-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { recordId } from '../../src/case/document.ts';
import { ownMark } from '../../src/drawing/scene.ts';
import { degrees, filmPoint } from '../../src/geometry/units.ts';
import { cornerstoneAlone, frameTimes } from './frame-time.ts';
import { madeFilm } from './made-film.ts';
import { FILM_ID, freeAxis, standPlate } from './plate-stand.ts';
import { resetScreen, setScreen } from './real-input.ts';

/**
 * How long one frame takes with a film of 12 million pixels and 50 marks, film and marks together, against
 * what cornerstone's own renderer takes for the film alone. Times depend on the machine and its neighbours,
 * so only ratios are checked, of medians taken in turn. Every frame is read back, so that drawing which the
 * browser puts off is counted too.
 */

const WIDTH = 1200;
const HEIGHT = 900;
const FRAMES = 9;
const film = madeFilm(3000, 4000, (column, row) => ((column * 7 + row * 13) % 900) + (row >> 1));

beforeAll(async () => {
  await page.viewport(WIDTH, HEIGHT);
  await setScreen(WIDTH, HEIGHT, 1);
});
afterAll(resetScreen);

const median = (values: readonly number[]) =>
  values.toSorted((one, other) => one - other)[Math.floor(values.length / 2)]!;

const frameTime = async (element: HTMLElement, change: (frame: number) => void) =>
  median(await frameTimes(element, FRAMES, change));

async function cornerstoneTimes() {
  const { element, remove } = cornerstoneAlone(film, WIDTH, HEIGHT);
  const light = await frameTime(element, (frame) =>
    cornerstone.setViewport(element, { voi: { windowCenter: 1500 + frame, windowWidth: 2000 } }),
  );
  const turn = await frameTime(element, (frame) =>
    cornerstone.setViewport(element, { rotation: 10 + frame }),
  );
  remove();
  return { light, turn };
}

async function plateTimes() {
  const { plate, host, remove } = standPlate(WIDTH, HEIGHT);
  plate.setFilm(film, 'timed');
  plate.setMarks({
    filmId: FILM_ID,
    showAngle: false,
    strokes: 'reading',
    marks: Array.from({ length: 50 }, (_, index) =>
      ownMark({
        ...freeAxis('proximal-axis', [200 + 50 * index, 600], [300 + 50 * index, 3000]),
        id: recordId(`mark-${index}`),
      }),
    ),
  });
  const element = host.querySelector<HTMLElement>('.cornerstone-canvas')!.parentElement!;
  const whole = plate.currentView;
  const light = await frameTime(element, (frame) =>
    plate.setLight({
      shown: { kind: 'window', center: 1500 + frame, width: 2000, function: 'LINEAR_EXACT' },
      negative: false,
    }),
  );
  const turn = await frameTime(element, (frame) => plate.setView({ ...whole, turn: degrees(10 + frame) }));
  const move = await frameTime(element, (frame) =>
    plate.setView({ ...whole, magnification: 1, centre: filmPoint(1500 + 9 * frame, 2000 + 7 * frame) }),
  );
  remove();
  return { light, turn, move };
}

test('a frame of film and marks takes less than cornerstone takes for the film alone', async () => {
  const theirs = await cornerstoneTimes();
  const ours = await plateTimes();
  const ratios = {
    light: ours.light / theirs.light,
    turn: ours.turn / theirs.turn,
    move: ours.move / theirs.light,
  };
  console.info('milliseconds', JSON.stringify({ theirs, ours }), 'ratios', JSON.stringify(ratios));
  expect(ratios.light).toBeLessThan(0.6);
  expect(ratios.turn).toBeLessThan(0.7);
  expect(ratios.move).toBeLessThan(0.6);
}, 60_000);
