import { describe, expect, it } from 'vitest';
import { shownArea } from '../../src/app/leaving/shown-area.ts';
import { type PlateView, wholeFilmView } from '../../src/canvas/plate-view.ts';
import type { Spacing } from '../../src/geometry/spacing.ts';
import { degrees, filmPoint } from '../../src/geometry/units.ts';

const ratio = (rowToColumn: number): Spacing => ({
  kind: 'ratio',
  rowToColumn,
  origin: 'PixelAspectRatio',
  conflicts: [],
});
const film = { columns: 400, rows: 600, spacing: ratio(1) };
const size = { width: 200, height: 100 };
const view = (patch: Partial<PlateView> = {}): PlateView => ({
  centre: filmPoint(150, 300),
  magnification: 2,
  turn: degrees(0),
  mirrored: false,
  ...patch,
});

/** Worked by hand: a plate of 200 × 100 at two pixels to a column shows 100 columns and 50 rows. */
describe('shownArea', () => {
  it('is what is in sight, in whole pixels', () => {
    const upright = { column: 100, row: 275, columns: 100, rows: 50 };
    expect(shownArea(film, view(), size)).toEqual(upright);
    expect(shownArea(film, view({ mirrored: true, turn: degrees(180) }), size)).toEqual(upright);
    expect(shownArea(film, view({ centre: filmPoint(150.4, 300) }), size)).toEqual({
      ...upright,
      columns: 101,
    });
  });

  it('is turned with the film, and around it for a turn in between', () => {
    const turned = { column: 125, row: 250, columns: 50, rows: 100 };
    expect(shownArea(film, view({ turn: degrees(-90) }), size)).toEqual(turned);
    // 45°: (100 + 50) / √2 = 106.07 either way, so 97 to 203 in columns and 246 to 354 in rows, rounded outwards.
    expect(shownArea(film, view({ turn: degrees(45) }), size)).toEqual({
      column: 96,
      row: 246,
      columns: 108,
      rows: 108,
    });
  });

  it('has fewer rows where a row is larger than a column', () => {
    expect(shownArea({ ...film, spacing: ratio(2) }, view(), size)).toMatchObject({ row: 287, rows: 26 });
  });

  it('ends with the film, and is none where the whole film is in sight', () => {
    expect(shownArea(film, view({ centre: filmPoint(10, 590) }), size)).toEqual({
      column: 0,
      row: 565,
      columns: 60,
      rows: 35,
    });
    expect(shownArea(film, wholeFilmView(film, size), size)).toBeNull();
  });
});
