import axe from 'axe-core';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { userEvent } from 'vitest/browser';
import { PAUSE_MS } from '../../src/canvas/tools/nudging.ts';
import { startPlacing } from '../../src/case/placing.ts';
import { degrees, filmPoint } from '../../src/geometry/units.ts';
import { madeFilm } from './made-film.ts';
import { drawn, freeAxis, mark, sceneOf } from './plate-stand.ts';
import { standEach } from './stand-each.ts';

/** The plate from the keyboard alone. Keys are pressed through the browser. */

const WIDTH = 600;
const HEIGHT = 400;
const film = madeFilm(600, 400, (column, row) => column + row);
const axis = freeAxis('distal-axis', [150, 300], [250, 100]);
const moved = (from: readonly [number, number], to: readonly [number, number]) =>
  freeAxis('distal-axis', from, to).shape;

const stand = standEach({ width: WIDTH, height: HEIGHT }, film, axis);

const focusedLabel = () => document.activeElement?.getAttribute('aria-label');
const keys = (text: string) => userEvent.keyboard(text);

test('Tab goes from the film to each control point, by its name', async () => {
  await userEvent.tab();
  expect(focusedLabel()).toContain('Film.');
  await userEvent.tab();
  expect(focusedLabel()).toBe('distal axis, end 1');
  await userEvent.tab();
  expect(focusedLabel()).toBe('distal axis, end 2');
  expect(stand.told.onFocus.at(-1)).toEqual([{ markId: axis.id, key: 'to' }]);
});

describe('nudging a control point', () => {
  beforeEach(() => stand.plate.focusPoint({ markId: axis.id, key: 'to' }));

  test('an arrow moves it by one screen pixel, with Shift by ten', async () => {
    await keys('{ArrowRight}{Shift>}{ArrowDown}{/Shift}');
    expect(stand.told.onPreview.map(([, shape]) => shape)).toEqual([
      moved([150, 300], [251, 100]),
      moved([150, 300], [251, 110]),
    ]);
    expect(stand.told.onAnnounce.at(-1)).toEqual(['distal axis, end 2: column 251.0, row 110.0']);
  });

  test('an arrow moves it along the screen, whatever the turn and mirroring of the film', async () => {
    stand.plate.setView({
      centre: filmPoint(250, 100),
      magnification: 4,
      turn: degrees(90),
      mirrored: true,
    });
    await keys('{ArrowRight}');
    const [, shape] = stand.told.onPreview.at(-1)!;
    // Mirrored, then turned a quarter clockwise: right on screen is up on the film. A screen pixel is 1/4.
    expect(shape).toMatchObject({ to: { column: expect.closeTo(250, 9), row: expect.closeTo(99.75, 9) } });
  });

  test('a run of nudges is one change, made when the keys rest', async () => {
    await keys('{ArrowRight}{ArrowRight}{ArrowUp}');
    expect(stand.told.onCommit).toEqual([]);
    await vi.waitFor(() => expect(stand.told.onCommit).toHaveLength(1), { timeout: PAUSE_MS + 1000 });
    expect(stand.told.onCommit).toEqual([[axis.id, moved([150, 300], [252, 99]), 'move distal axis']]);
  });

  test('Enter makes the change at once', async () => {
    await keys('{ArrowLeft}{Enter}');
    expect(stand.told.onCommit).toEqual([[axis.id, moved([150, 300], [249, 100]), 'move distal axis']]);
  });

  test('leaving the point makes the change', async () => {
    await keys('{ArrowLeft}');
    await userEvent.tab({ shift: true });
    expect(stand.told.onCommit).toHaveLength(1);
    expect(focusedLabel()).toBe('distal axis, end 1');
  });

  test('Escape takes the whole run back, and only that', async () => {
    const outer = vi.fn();
    stand.host.addEventListener('keydown', outer);
    await keys('{ArrowLeft}{ArrowLeft}{Escape}');
    expect(stand.told.onPreview.at(-1)).toEqual([axis.id, null]);
    expect(outer).not.toHaveBeenCalled();
    await keys('{Escape}');
    // With nothing to take back, Escape is the app's.
    expect(outer).toHaveBeenCalledTimes(1);
    expect(stand.told.onCommit).toEqual([]);
  });

  test('keys with Ctrl or Alt are left to the browser and the app', async () => {
    await keys('{Control>}{ArrowLeft}{/Control}{Alt>}{ArrowLeft}{/Alt}');
    expect(stand.told.onPreview).toEqual([]);
  });

  test('a mark that goes away hands the focus to the film', async () => {
    stand.plate.setMarks(sceneOf());
    await drawn();
    expect(focusedLabel()).toContain('Film.');
  });

  test('a new scene leaves the focus where it is', async () => {
    stand.plate.setMarks(sceneOf(freeAxis('proximal-axis', [10, 10], [20, 30]), axis));
    await drawn();
    expect(focusedLabel()).toBe('distal axis, end 2');
  });

  test('a point outside the plate is brought into it', async () => {
    stand.plate.setView({ ...stand.plate.currentView, centre: filmPoint(500, 300), magnification: 4 });
    stand.plate.focusPoint({ markId: axis.id, key: 'to' });
    expect(stand.plate.currentView.centre).toEqual({ column: 250, row: 100 });
  });
});

describe('placing points', () => {
  beforeEach(() => {
    stand.plate.setPlacing(startPlacing('proximal-axis', 'free'));
    stand.plate.focusPoint(null);
  });

  test('the film says what is to be placed and how', () => {
    expect(focusedLabel()).toContain('proximal axis, end 1');
    expect(focusedLabel()).toContain('Enter');
  });

  test('the cross starts in the middle, is moved by the arrows, and Enter places', async () => {
    await keys('{ArrowRight}{ArrowRight}{Shift>}{ArrowDown}{/Shift}{Enter}');
    // The first key shows it at (300, 200).
    expect(stand.told.onPlacingPoint).toEqual([[{ column: 301, row: 210 }]]);
    expect(stand.told.onAnnounce.at(-1)).toEqual(['column 301.0, row 210.0']);
  });

  test('it stays where it is for the next point', async () => {
    await keys('{ArrowRight}{Enter}{Shift>}{ArrowUp}{/Shift}{Enter}');
    expect(stand.told.onPlacingPoint.map(([point]) => point)).toEqual([
      { column: 300, row: 200 },
      { column: 300, row: 190 },
    ]);
  });

  test('the control points of other marks are out of the way', async () => {
    await drawn();
    expect(stand.host.querySelectorAll('button')).toHaveLength(1);
  });
});

test('the film moves, magnifies and shows itself whole', async () => {
  stand.plate.focusPoint(null);
  await keys('{ArrowRight}');
  expect(stand.plate.currentView.centre).toEqual({ column: 340, row: 200 });
  await keys('+');
  expect(stand.plate.currentView.magnification).toBeCloseTo(1.25, 9);
  await keys('-');
  expect(stand.plate.currentView.magnification).toBeCloseTo(1, 9);
  await keys('0');
  expect(stand.plate.currentView.centre).toEqual({ column: 300, row: 200 });
});

test('control points are at least 24 pixels wide and high for assistive technology', () => {
  // WCAG 2.2, success criterion 2.5.8.
  for (const button of stand.host.querySelectorAll('button')) {
    const { width, height } = button.getBoundingClientRect();
    expect(Math.min(width, height)).toBeGreaterThanOrEqual(24);
  }
});

test('axe finds nothing to object to', async () => {
  stand.plate.setMarks(sceneOf(axis, mark('dorsal-side', { construction: 'point', at: filmPoint(90, 90) })));
  await drawn();
  const { violations, passes } = await axe.run(stand.host);
  expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
  expect(passes.length).toBeGreaterThan(5);
});
