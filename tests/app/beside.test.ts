import { describe, expect, it } from 'vitest';
import { createStore } from 'zustand/vanilla';
import { besideOf, keepView, showBeside, sizeRatio, workOnSecond } from '../../src/app/beside.ts';
import { type AppState, initialState } from '../../src/app/state.ts';
import type { PlateView } from '../../src/canvas/plate-view.ts';
import { caseId, type FilmRecord, recordId } from '../../src/case/document.ts';
import { freshState } from '../../src/case/history.ts';
import { degrees, filmPoint } from '../../src/geometry/units.ts';
import { caseOf, film } from '../case/samples.ts';

const fine = film('fine');
const coarse = film('coarse', {
  spacing: { ...fine.spacing, rowSpacingMm: 0.2, columnSpacingMm: 0.2 } as FilmRecord['spacing'],
  columns: 1000,
});
const other = film('other', { hand: 'other' });

const view = (magnification: number): PlateView => ({
  centre: filmPoint(100, 100),
  magnification,
  turn: degrees(0),
  mirrored: false,
});

const shellWith = (...views: readonly (readonly [string, PlateView])[]) => {
  const store = createStore<AppState>(() => ({
    ...initialState(caseId('case-1'), 'system'),
    caseState: freshState(caseOf(fine, coarse, other)),
    chosenFilm: fine.id,
    views: new Map(views.map(([id, one]) => [recordId(id), one])),
  }));
  return { store };
};

describe('two films side by side', () => {
  it('show a bone as large on both, whichever is magnified', () => {
    const shell = shellWith(['fine', view(1)], ['coarse', view(1)]);
    showBeside(shell, coarse.id);
    keepView(shell, fine.id, view(0.5), false);
    // A pixel of 0.2 mm must be drawn twice as large as one of 0.1 mm.
    expect(shell.store.getState().views.get(coarse.id)).toEqual(view(1));
    keepView(shell, coarse.id, view(3), false);
    expect(shell.store.getState().views.get(fine.id)?.magnification).toBeCloseTo(1.5, 12);
    expect(shell.store.getState().views.get(coarse.id)).toEqual(view(3));
  });

  it.each([
    ['as it lies', degrees(0), false],
    ['mirrored', degrees(0), true],
    ['mirrored and turned', degrees(90), true],
  ] as const)('magnify about the same place of both plates: %s', (_, turn, mirrored) => {
    const second: PlateView = { centre: filmPoint(400, 700), magnification: 1, turn, mirrored };
    const shell = shellWith(['fine', { ...view(1), centre: filmPoint(500, 600) }], ['other', second]);
    showBeside(shell, other.id);
    // Twice as large about the film point (530, 580), 30 to the right and 20 above the middle of the plate: that point
    // stays there when the middle comes to (515, 590).
    keepView(shell, fine.id, { ...view(2), centre: filmPoint(515, 590) }, false);
    const found = shell.store.getState().views.get(other.id)!;
    expect(found.magnification).toBe(2);
    // Half the way from the old middle to the film point that lies 30 to the right and 20 above it on its own plate:
    // mirrored that is 30 to the left; turned a quarter clockwise as well, the film's right is the plate's top and its
    // top the plate's right.
    const toPoint = turn === 90 ? [20, -30] : [mirrored ? -30 : 30, -20];
    expect(found.centre.column).toBeCloseTo(400 + toPoint[0]! / 2, 9);
    expect(found.centre.row).toBeCloseTo(700 + toPoint[1]! / 2, 9);
  });

  it('are not moved by moving one', () => {
    const shell = shellWith(['fine', view(1)], ['other', view(1)]);
    showBeside(shell, other.id);
    keepView(shell, fine.id, { ...view(1), centre: filmPoint(300, 300) }, false);
    expect(shell.store.getState().views.get(other.id)).toEqual(view(1));
  });

  it('go by the width of the films where one has no scale', () => {
    const bare = film('bare', {
      columns: 500,
      spacing: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
    });
    // 2000 columns against 500: four times the magnification fills the same width.
    expect(sizeRatio(fine, bare)).toBe(4);
  });

  it('leave the other alone while none is beside', () => {
    const shell = shellWith(['coarse', view(1)]);
    keepView(shell, fine.id, view(0.5), true);
    expect(shell.store.getState().whole.has(fine.id)).toBe(true);
    keepView(shell, fine.id, view(0.5), false);
    expect(shell.store.getState().whole.has(fine.id)).toBe(false);
    expect(shell.store.getState().views.get(coarse.id)).toEqual(view(1));
    expect(besideOf(shell.store.getState())).toBeNull();
  });

  it('show the other hand mirrored, and one that was turned by hand as it was', () => {
    const shell = shellWith();
    showBeside(shell, other.id);
    expect(shell.store.getState().views.get(other.id)?.mirrored).toBe(true);
    expect(shell.store.getState().whole.has(other.id)).toBe(true);
    const turned = shellWith(['other', view(1)]);
    showBeside(turned, other.id);
    expect(turned.store.getState().views.get(other.id)?.mirrored).toBe(false);
  });

  it('change places, and part when the second is chosen', () => {
    const shell = shellWith();
    showBeside(shell, other.id);
    workOnSecond(shell);
    expect(shell.store.getState().chosenFilm).toBe(other.id);
    expect(besideOf(shell.store.getState())?.id).toBe(fine.id);
    shell.store.setState({ chosenFilm: fine.id });
    expect(besideOf(shell.store.getState())).toBeNull();
  });
});
