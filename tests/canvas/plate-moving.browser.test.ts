import { describe, expect, test } from 'vitest';
import { startPlacing } from '../../src/case/placing.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { axis, film, HEIGHT, moved, standWithAxis, WIDTH } from './axis-stand.ts';
import { squareMillimetres } from './made-film.ts';
import { drawn, standPlate } from './plate-stand.ts';
import { mouseDown, mouseDrag, mouseMove, mouseUp, touch, wheel } from './real-input.ts';

/** Real input events, as the browser makes them from a mouse, a pen and fingers. */

const stand = standWithAxis();

describe('moving and magnifying', () => {
  test('bare film moves with the mouse, and the middle button moves it from anywhere', async () => {
    await mouseDrag([400, 300], [410, 280]);
    expect(stand.plate.currentView.centre).toEqual({ column: 290, row: 220 });
    await mouseMove(260, 80);
    await mouseDown(260, 80, 'middle');
    await mouseMove(250, 100, 'middle');
    await mouseUp(250, 100, 'middle');
    expect(stand.plate.currentView.centre).toEqual({ column: 300, row: 200 });
    expect(stand.told.onPreview).toEqual([]);
    expect(stand.told.onView.at(-1)).toEqual([stand.plate.currentView, false]);
  });

  test('the wheel keeps the film under the pointer where it is', async () => {
    await wheel(450, 100, -200);
    await drawn();
    const { centre, magnification } = stand.plate.currentView;
    expect(magnification).toBeGreaterThan(1.1);
    // From the middle of the plate, (300, 200), the pointer is 150 to the right and 100 up.
    expect(centre.column + 150 / magnification).toBeCloseTo(450, 6);
    expect(centre.row - 100 / magnification).toBeCloseTo(100, 6);
  });

  test('two fingers magnify and move, and the film between them stays between them', async () => {
    await touch('touchStart', [400, 200]);
    await touch('touchStart', [400, 200], [500, 200]);
    await touch('touchMove', [420, 250], [570, 250]);
    await touch('touchEnd');
    const { centre, magnification } = stand.plate.currentView;
    expect(magnification).toBeCloseTo(1.5, 6);
    // (450, 200) of the film was between the fingers, which ended round (495, 250).
    expect(centre.column + (495 - 300) / magnification).toBeCloseTo(450, 6);
    expect(centre.row + (250 - 200) / magnification).toBeCloseTo(200, 6);
  });

  test('a finger takes hold of a control point from farther away than a mouse', async () => {
    // 20 pixels beside the point: beyond the 12 of a mouse, within the 22 of a finger.
    await mouseDrag([270, 100], [280, 100]);
    expect(stand.told.onPreview).toEqual([]);
    stand.plate.wholeFilm();
    await touch('touchStart', [270, 100]);
    await touch('touchMove', [280, 100]);
    await touch('touchEnd');
    expect(stand.told.onCommit).toEqual([[axis.id, moved([150, 300], [260, 100]), 'move distal axis']]);
  });

  test('the browser leaves touches on the plate to it', () => {
    expect(getComputedStyle(stand.host.firstElementChild!).touchAction).toBe('none');
  });

  test('the film cannot be lost from sight', async () => {
    await mouseDrag([400, 300], [4, 4], [599, 4]);
    for (let count = 0; count < 8; count++) await mouseDrag([500, 390], [10, 5]);
    const { centre } = stand.plate.currentView;
    expect(centre.column).toBeLessThanOrEqual(600);
    expect(centre.row).toBeLessThanOrEqual(400);
    for (let count = 0; count < 20; count++) await wheel(300, 200, 2000);
    expect(stand.plate.currentView.magnification).toBeCloseTo(0.5, 6);
    for (let count = 0; count < 20; count++) await wheel(300, 200, -4000);
    expect(stand.plate.currentView.magnification).toBe(24);
  });
});

test('the same film with another spacing keeps its view; another film is shown whole', async () => {
  await mouseDrag([400, 300], [410, 280]);
  const view = stand.plate.currentView;
  stand.plate.setFilm({ ...film, spacing: squareMillimetres(0.2) }, 'a');
  expect(stand.plate.currentView).toEqual(view);
  stand.plate.setFilm(film, 'b');
  expect(stand.plate.currentView.centre).toEqual({ column: 300, row: 200 });
});

test('after destroy nothing is left in the page and nothing draws', async () => {
  const { host, plate, told } = standPlate(WIDTH, HEIGHT);
  plate.setFilm(film, 'c');
  plate.destroy();
  expect(host.childElementCount).toBe(0);
  await drawn();
  await mouseDrag([400, 300], [410, 280]);
  expect(told.onView).toEqual([]);
  host.remove();
});

test('points given in film coordinates and back are the same', async () => {
  stand.plate.setPlacing(startPlacing('proximal-axis', 'free'));
  stand.plate.setView({ ...stand.plate.currentView, centre: filmPoint(100, 100), magnification: 2 });
  await mouseDrag([300, 200]);
  expect(stand.told.onPlacingPoint[0]?.[0].column).toBeCloseTo(100, 9);
  expect(stand.told.onPlacingPoint[0]?.[0].row).toBeCloseTo(100, 9);
});
