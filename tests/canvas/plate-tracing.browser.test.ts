import { beforeEach, describe, expect, test } from 'vitest';
import type { Proposal } from '../../src/drawing/proposal.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { madeFilm } from './made-film.ts';
import { drawn, freeAxis } from './plate-stand.ts';
import { mouseDown, mouseDrag, mouseMove, mouseUp } from './real-input.ts';
import { standEach } from './stand-each.ts';

const WIDTH = 600;
const HEIGHT = 400;
const film = madeFilm(600, 400, (column, row) => column + row);
/** The film is as large as the plate and shown whole: one screen pixel is one pixel of the film. */
const axis = freeAxis('distal-axis', [150, 300], [250, 100]);

const proposal: Proposal = {
  outlines: [{ fragment: 'proximal', points: [filmPoint(300, 350), filmPoint(300, 200)] }],
  holds: [
    {
      key: 'proximal-one-1',
      name: 'proximal fragment, one cortex, point 1',
      fragment: 'proximal',
      at: filmPoint(300, 280),
      corrected: false,
    },
  ],
  proximal: { from: filmPoint(320, 350), to: filmPoint(320, 200) },
  distal: { from: filmPoint(320, 190), to: filmPoint(380, 80) },
  readout: { value: '29°', uncertainty: '25–33°' },
};

const stand = standEach({ width: WIDTH, height: HEIGHT }, film, axis);

const names = () =>
  [...stand.host.querySelectorAll('button')].map((button) => button.getAttribute('aria-label') ?? '');
const press = (key: string) =>
  document.activeElement?.dispatchEvent(
    new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }),
  );
const hold = () => stand.host.querySelector<HTMLElement>('button[aria-label*="cortex, point 1"]')!;

describe('taps', () => {
  test('are told like points of a draft, and the film says what for', async () => {
    stand.plate.setTracing({ wanted: 'Tap the middle of the base.', taps: [], proposal: null });
    await drawn();
    expect(names()).toEqual([
      expect.stringMatching(/^Tap the middle of the base\. Arrow keys move the cross/),
    ]);
    await mouseMove(120, 330);
    await mouseDown(120, 330);
    await mouseUp(120, 330);
    expect(stand.told.onPlacingPoint).toEqual([[filmPoint(120, 330)]]);
    expect(stand.told.onCommit).toEqual([]);
  });

  test('are over when nothing is asked for: a press moves the film again', async () => {
    stand.plate.setTracing({ wanted: 'Tap the middle of the base.', taps: [], proposal: null });
    stand.plate.setTracing(null);
    await drawn();
    await mouseDown(120, 330);
    await mouseUp(120, 330);
    expect(stand.told.onPlacingPoint).toEqual([]);
    expect(names().some((name) => name.startsWith('distal axis'))).toBe(true);
  });
});

describe('a proposal', () => {
  beforeEach(async () => {
    stand.plate.setTracing({ wanted: null, taps: [], proposal });
    await drawn();
  });

  test('has its points in reach, and those of the marks out of it', async () => {
    expect(names().slice(1)).toEqual(['proximal fragment, one cortex, point 1']);
    await mouseDrag([250, 100], [260, 110]);
    expect(stand.told.onPreview).toEqual([]);
    expect(stand.told.onCommit).toEqual([]);
  });

  test('tells of a dragged point once, at the release, and of no mark', async () => {
    await mouseDrag([300, 280], [304, 281], [310, 282]);
    expect(stand.told.onHold).toEqual([['proximal-one-1', filmPoint(310, 282)]]);
    expect(stand.told.onPreview).toEqual([]);
    expect(stand.told.onCommit).toEqual([]);
  });

  test('is moved by keys, told at Enter, put back by Escape', async () => {
    hold().focus();
    press('ArrowRight');
    press('ArrowRight');
    press('Escape');
    expect(stand.told.onHold).toEqual([]);
    press('ArrowRight');
    press('Enter');
    expect(stand.told.onHold).toHaveLength(1);
    const [, at] = stand.told.onHold[0]!;
    // The first two steps were put back: one step is left, of the same length as a nudge of a mark.
    expect(at.row).toBe(280);
    expect(at.column).toBeGreaterThan(300);
    expect(at.column).toBeLessThan(302);
    expect(stand.told.onAnnounce.at(-1)?.[0]).toMatch(/^proximal fragment, one cortex, point 1: column 30/);
  });

  test('that is small on the plate is shown large, once; the user then moves the film as before', async () => {
    stand.plate.setTracing(null);
    const at = (column: number, row: number) => filmPoint(400 + (column - 300) / 4, 100 + (row - 200) / 4);
    const small: Proposal = {
      ...proposal,
      outlines: [{ fragment: 'proximal', points: [at(300, 350), at(300, 200)] }],
      holds: [],
      proximal: { from: at(320, 350), to: at(320, 200) },
      distal: { from: at(320, 190), to: at(380, 80) },
    };
    stand.plate.setTracing({ wanted: null, taps: [], proposal: small });
    await drawn();
    const { centre, magnification } = stand.plate.currentView;
    // From row 70 to 137.5: 67.5 pixels of the film on 400 of the plate, of which 72 in 100 are to be filled.
    expect(magnification).toBeCloseTo((0.72 * 400) / 67.5, 6);
    expect(centre.row).toBeCloseTo(103.75, 6);
    expect(centre.column).toBeCloseTo(410, 6);
    stand.plate.wholeFilm();
    stand.plate.setTracing({ wanted: null, taps: [], proposal: { ...small, readout: null } });
    expect(stand.plate.currentView.magnification).toBe(1);
  });
});
