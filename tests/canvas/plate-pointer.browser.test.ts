import { beforeEach, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import { startPlacing } from '../../src/case/placing.ts';
import { axis, HEIGHT, moved, standWithAxis, WIDTH } from './axis-stand.ts';
import { madeFilm } from './made-film.ts';
import { greysOf, markCanvases, middleOf } from './pixels.ts';
import { drawn, sceneOf } from './plate-stand.ts';
import {
  mouseDown,
  mouseDrag,
  mouseMove,
  mouseUp,
  penDown,
  penMove,
  penUp,
  setScreen,
  touch,
} from './real-input.ts';

/** Real input events, as the browser makes them from a mouse, a pen and fingers. */

const stand = standWithAxis();

const press = (key: string) =>
  document.activeElement?.dispatchEvent(
    new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }),
  );

describe('dragging a control point', () => {
  test('previews every move and commits once, at the release', async () => {
    await mouseDrag([250, 100], [260, 110], [300, 130]);
    const { told } = stand;
    expect(told.onPreview).toEqual([
      [axis.id, moved([150, 300], [260, 110])],
      [axis.id, moved([150, 300], [300, 130])],
    ]);
    expect(told.onCommit).toEqual([[axis.id, moved([150, 300], [300, 130]), 'move distal axis']]);
    expect(told.onFocus.at(-1)).toEqual([{ markId: axis.id, key: 'to' }]);
  });

  test('taken hold of beside its middle, the point does not jump', async () => {
    await mouseDrag([254, 97], [264, 97]);
    expect(stand.told.onCommit).toEqual([[axis.id, moved([150, 300], [260, 100]), 'move distal axis']]);
  });

  test('goes on outside the plate, since the pointer is captured', async () => {
    await page.viewport(WIDTH, HEIGHT + 200);
    await setScreen(WIDTH, HEIGHT + 200, 1);
    await mouseDrag([250, 100], [250, 300], [250, HEIGHT + 50]);
    expect(stand.told.onCommit[0]?.[1]).toEqual(moved([150, 300], [250, HEIGHT + 50]));
    await page.viewport(WIDTH, HEIGHT);
    await setScreen(WIDTH, HEIGHT, 1);
  });

  test('Escape drops the drag; letting go afterwards does nothing', async () => {
    await mouseMove(250, 100);
    await mouseDown(250, 100);
    await mouseMove(300, 130, 'left');
    press('Escape');
    await mouseUp(300, 130);
    expect(stand.told.onPreview.at(-1)).toEqual([axis.id, null]);
    expect(stand.told.onCommit).toEqual([]);
    // And the next drag starts where the point was.
    await mouseDrag([250, 100], [251, 100]);
    expect(stand.told.onCommit).toEqual([[axis.id, moved([150, 300], [251, 100]), 'move distal axis']]);
  });

  test('a press without a move commits nothing', async () => {
    await mouseDrag([250, 100]);
    expect(stand.told.onCommit).toEqual([]);
    expect(stand.told.onFocus.at(-1)).toEqual([{ markId: axis.id, key: 'to' }]);
  });

  test('the right button does nothing', async () => {
    const view = stand.plate.currentView;
    await mouseMove(250, 100);
    await mouseDown(250, 100, 'right');
    await mouseMove(300, 130, 'right');
    await mouseUp(300, 130, 'right');
    expect(stand.told.onPreview).toEqual([]);
    expect(stand.plate.currentView).toEqual(view);
  });

  test('the mark stays where it was put until the app hands in the next scene', async () => {
    await mouseDrag([250, 100], [300, 130]);
    await mouseDrag([300, 130], [310, 130]);
    expect(stand.told.onCommit.at(-1)?.[1]).toEqual(moved([150, 300], [310, 130]));
    stand.plate.setMarks(sceneOf(axis));
    await mouseDrag([250, 100], [251, 100]);
    expect(stand.told.onCommit.at(-1)?.[1]).toEqual(moved([150, 300], [251, 100]));
  });

  test('a mark that is not the user’s own cannot be moved', async () => {
    stand.plate.setMarks({
      ...sceneOf(),
      marks: [{ record: axis, style: 'observer', editable: false }],
    });
    await drawn();
    await mouseDrag([250, 100], [300, 130]);
    expect(stand.told.onPreview).toEqual([]);
  });

  test('the resting layer lets go of the mark, and takes it back', async () => {
    const { resting, active } = markCanvases(stand.host);
    const blue = (canvas: HTMLCanvasElement) =>
      middleOf(canvas, ({ red, blue: value, alpha }) => (alpha > 100 && value > red + 60 ? 1 : 0));
    expect(blue(resting)).not.toBeNull();
    await mouseMove(250, 100);
    await mouseDown(250, 100);
    await mouseMove(300, 130, 'left');
    await drawn();
    expect(blue(resting)).toBeNull();
    expect(blue(active)).not.toBeNull();
    await mouseUp(300, 130);
    await drawn();
    expect(blue(resting)).not.toBeNull();
  });
});

describe('placing', () => {
  beforeEach(() => stand.plate.setPlacing(startPlacing('proximal-axis', 'free')));

  test('a click places a point', async () => {
    await mouseDrag([321, 123]);
    expect(stand.told.onPlacingPoint).toEqual([[{ column: 321, row: 123 }]]);
  });

  test('a point can be adjusted before the button is let go', async () => {
    await mouseDrag([321, 123], [340, 140], [342, 139]);
    expect(stand.told.onPlacingPoint).toEqual([[{ column: 342, row: 139 }]]);
  });

  test('on top of a control point it places, and drags nothing', async () => {
    await mouseDrag([250, 100], [255, 100]);
    expect(stand.told.onPlacingPoint).toEqual([[{ column: 255, row: 100 }]]);
    expect(stand.told.onPreview).toEqual([]);
  });

  test('Escape while pressed places nothing', async () => {
    await mouseMove(321, 123);
    await mouseDown(321, 123);
    press('Escape');
    await mouseUp(321, 123);
    expect(stand.told.onPlacingPoint).toEqual([]);
  });

  test('withdrawing the draft while pressed places nothing', async () => {
    await mouseMove(321, 123);
    await mouseDown(321, 123);
    stand.plate.setPlacing(null);
    await mouseUp(321, 123);
    expect(stand.told.onPlacingPoint).toEqual([]);
  });

  test('a finger places where it is lifted; two fingers pinch and place nothing', async () => {
    await touch('touchStart', [200, 200]);
    await touch('touchMove', [210, 190]);
    await touch('touchEnd');
    expect(stand.told.onPlacingPoint).toEqual([[{ column: 210, row: 190 }]]);
    await drawn();
    // A lifted finger aims at nothing: neither cross nor inset stays.
    const { active } = markCanvases(stand.host);
    expect(middleOf(active, ({ alpha }) => alpha)).toBeNull();
    await touch('touchStart', [200, 200]);
    await touch('touchStart', [200, 200], [300, 200]);
    await touch('touchMove', [150, 200], [350, 200]);
    await touch('touchEnd', [150, 200]);
    await touch('touchEnd');
    expect(stand.told.onPlacingPoint).toHaveLength(1);
    // The fingers went from 100 to 200 apart.
    expect(stand.plate.currentView.magnification).toBeCloseTo(2, 1);
  });

  test('a pen places where it is lifted', async () => {
    await penMove(200, 200, 'none');
    await penDown(200, 200);
    await penMove(220, 210, 'left');
    await penUp(220, 210);
    expect(stand.told.onPlacingPoint).toEqual([[{ column: 220, row: 210 }]]);
  });

  test('the inset shows the film under the pointer, large, in the far corner', async () => {
    const spot = madeFilm(600, 400, (column, row) => (column === 120 && row === 300 ? 4095 : 0));
    stand.plate.setFilm(spot, 'b');
    stand.plate.setMarks(sceneOf());
    await mouseMove(120.5, 300.5);
    await drawn();
    // 170 wide and 16 from the edges; far from (120, 300) is the top right corner. Its middle is (499, 101).
    const { active } = markCanvases(stand.host);
    const greyAt = (x: number, y: number) => greysOf(active)[y * active.width + x];
    // Three times as large, the bright pixel reaches from 497.5 to 500.5; the cross leaves 5 open round it.
    expect(greyAt(499, 101)).toBeGreaterThan(150);
    expect(greyAt(495, 101)).toBeLessThan(60);
    expect(greyAt(503, 101)).toBeLessThan(60);
    // Its arms are one pixel wide and lie on the border of two.
    expect(greyAt(499 - 10, 101)).toBeGreaterThan(100);
    await mouseMove(480, 90);
    await drawn();
    // Now the pointer is there, and the inset has gone to the opposite corner, 40 higher for the scale bar.
    expect(greyAt(101 - 10, HEIGHT - 101 - 40)).toBeGreaterThan(100);
  });
});
