import * as cornerstone from 'cornerstone-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { PlateView } from '../../src/canvas/plate-view.ts';
import type { Film } from '../../src/film/film.ts';
import type { Light } from '../../src/film/grey-scale.ts';
import { degrees, filmPoint } from '../../src/geometry/units.ts';
import { cornerstoneAlone } from './cornerstone-alone.ts';
import { madeFilm, squareMillimetres } from './made-film.ts';
import { filmCanvas, greysOf } from './pixels.ts';
import { drawn, standPlate } from './plate-stand.ts';

/**
 * The plate's own drawing against cornerstone-core 2.6.1's renderer, pixel by pixel: the same film, view and
 * window, drawn by a library that maps the whole film through its own lookup table. Where the plate draws
 * the film as stored, or a level that is exactly half, only rounding may differ; elsewhere a pyramid differs
 * from its one-step reduction at edges, within what was measured when the way of drawing was chosen.
 */

const WIDTH = 600;
const HEIGHT = 450;

/** Bones, soft tissue and grain: smooth shades with hard edges, 12 bits. */
const film: Film = madeFilm(
  1400,
  1100,
  (column, row) => {
    const along = Math.abs(((column + 0.35 * row) % 840) - 420);
    const bone = along < 60 ? 1500 : along < 90 ? 2600 : 500;
    const grain = ((column * 7919 + row * 104729) % 41) - 20;
    return Math.round(bone + 350 * Math.sin(column / 61) * Math.cos(row / 47) + grain);
  },
  squareMillimetres(0.15),
);

/** cornerstone's window is PS3.3 C.11.2.1.3.2, LINEAR_EXACT, so that is what is compared. */
const light = (center: number, width: number, negative = false): Light => ({
  shown: { kind: 'window', center, width, function: 'LINEAR_EXACT' },
  negative,
});

interface Shown {
  readonly view: PlateView;
  /** The view of cornerstone's that it must equal; absent: the same. */
  readonly theirs?: PlateView;
  /** What the plate showed before, in the same light: nothing of it may be left. */
  readonly before?: PlateView;
  readonly light: { readonly center: number; readonly width: number; readonly negative: boolean };
}

async function byPlate({ view, before, light: { center, width, negative } }: Shown): Promise<Uint8Array> {
  const { plate, host, remove } = standPlate(WIDTH, HEIGHT);
  plate.setFilm(film, 'compared');
  plate.setView(before ?? view);
  plate.setLight(light(center, width, negative));
  await drawn();
  plate.setView(view);
  await drawn();
  const greys = greysOf(filmCanvas(host));
  remove();
  return greys;
}

async function byCornerstone({
  view: asked,
  theirs: view = asked,
  light: { center, width, negative },
}: Shown): Promise<Uint8Array> {
  const { element, remove } = cornerstoneAlone(film, { width: WIDTH, height: HEIGHT }, { center, width });
  // Its translation is along the screen, in film pixels, from the middle of the film.
  const across = (view.mirrored ? -1 : 1) * (view.centre.column - film.columns / 2);
  const down = view.centre.row - film.rows / 2;
  const [cos, sin] = [Math.cos((view.turn * Math.PI) / 180), Math.sin((view.turn * Math.PI) / 180)];
  cornerstone.setViewport(element, {
    scale: view.magnification,
    rotation: view.turn,
    hflip: view.mirrored,
    translation: { x: -(cos * across - sin * down), y: -(sin * across + cos * down) },
    voi: { windowCenter: center, windowWidth: width },
    invert: negative,
  });
  await drawn();
  const greys = greysOf(element.querySelector('canvas')!);
  remove();
  return greys;
}

async function differences(shown: Shown) {
  const [ours, theirs] = [await byPlate(shown), await byCornerstone(shown)];
  expect(ours.length).toBe(WIDTH * HEIGHT);
  expect(theirs.length).toBe(ours.length);
  // The comparison means nothing between two blank pictures.
  expect(new Set(theirs).size).toBeGreaterThan(100);
  let most = 0;
  let sum = 0;
  let large = 0;
  for (let index = 0; index < ours.length; index++) {
    const difference = Math.abs(ours[index]! - theirs[index]!);
    most = Math.max(most, difference);
    sum += difference;
    if (difference > 8) large++;
  }
  return { most, mean: sum / ours.length, shareOver8: large / ours.length };
}

const WIDE = { center: 1500, width: 3600, negative: false };
const view = (more: Partial<PlateView>): PlateView => ({
  centre: filmPoint(700, 550),
  magnification: 1,
  turn: degrees(0),
  mirrored: false,
  ...more,
});

beforeAll(async () => {
  await page.viewport(WIDTH, HEIGHT * 2);
});
afterAll(() => expect(cornerstone.getEnabledElements()).toHaveLength(0));

describe('where no reduction is needed, or exactly one half', () => {
  test.each<{ name: string; shown: Shown }>([
    { name: 'at 1', shown: { view: view({}), light: WIDE } },
    {
      name: 'at 1, a quarter of a pixel beside: on the nearest pixels of the screen, unblurred',
      shown: {
        view: view({ centre: filmPoint(705.25, 552.75) }),
        theirs: view({ centre: filmPoint(705, 553) }),
        light: WIDE,
      },
    },
    {
      name: 'at 1.25, between pixels, after pixel on pixel',
      shown: {
        before: view({}),
        view: view({ magnification: 1.25, centre: filmPoint(705.25, 553) }),
        light: WIDE,
      },
    },
    {
      name: 'at 1, after it lay between pixels',
      shown: {
        before: view({ magnification: 1.25, centre: filmPoint(705.25, 553) }),
        view: view({}),
        light: WIDE,
      },
    },
    {
      name: 'at 0.5, moved',
      shown: { view: view({ magnification: 0.5, centre: filmPoint(640, 500) }), light: WIDE },
    },
    {
      name: 'at 2.5, a quarter turn, mirrored, negative, narrow window',
      shown: {
        view: view({ magnification: 2.5, turn: degrees(90), mirrored: true, centre: filmPoint(500, 333) }),
        light: { center: 1400, width: 1800, negative: true },
      },
    },
  ])('$name: at most 3 greys apart', async ({ shown }) => {
    const { most, mean } = await differences(shown);
    expect(most).toBeLessThanOrEqual(3);
    expect(mean).toBeLessThan(0.6);
  });
});

describe('reduced by other factors', () => {
  test.each<{ name: string; shown: Shown }>([
    { name: 'the whole film', shown: { view: view({ magnification: 450 / 1100 }), light: WIDE } },
    {
      name: 'turned by 30°, mirrored',
      shown: { view: view({ magnification: 0.4, turn: degrees(30), mirrored: true }), light: WIDE },
    },
  ])('$name: 1.1 greys apart on average, few pixels much', async ({ shown }) => {
    const { mean, shareOver8 } = await differences(shown);
    expect({ mean, shareOver8 }).toEqual({
      mean: expect.toSatisfy((value: number) => value < 1.1),
      shareOver8: expect.toSatisfy((value: number) => value < 0.02),
    });
  });
});
