import { Plate } from '../../src/canvas/plate.ts';
import type { PlateEvents } from '../../src/canvas/plate-events.ts';
import { type MarkRecord, type MarkRole, type MarkShape, recordId } from '../../src/case/document.ts';
import { type MarkScene, ownMark } from '../../src/drawing/scene.ts';
import { filmPoint } from '../../src/geometry/units.ts';

export const FILM_ID = recordId('film-1');

/** A plate of the given size in the page, with a list of everything it has told. */
export function standPlate(width: number, height: number) {
  const host = document.createElement('div');
  Object.assign(host.style, {
    position: 'absolute',
    left: '0',
    top: '0',
    width: `${width}px`,
    height: `${height}px`,
  });
  document.body.append(host);
  const told: { [Name in keyof PlateEvents]: Parameters<PlateEvents[Name]>[] } = {
    onPreview: [],
    onCommit: [],
    onPlacingPoint: [],
    onHold: [],
    onView: [],
    onFocus: [],
    onAnnounce: [],
  };
  const plate = new Plate(host, {
    onPreview: (...args) => told.onPreview.push(args),
    onCommit: (...args) => told.onCommit.push(args),
    onPlacingPoint: (...args) => told.onPlacingPoint.push(args),
    onHold: (...args) => told.onHold.push(args),
    onView: (...args) => told.onView.push(args),
    onFocus: (...args) => told.onFocus.push(args),
    onAnnounce: (...args) => told.onAnnounce.push(args),
  });
  const remove = () => {
    plate.destroy();
    host.remove();
  };
  return { plate, host, told, remove };
}

export const mark = (role: MarkRole, shape: MarkShape): MarkRecord => ({
  kind: 'mark',
  id: recordId(`${FILM_ID}/${role}`),
  filmId: FILM_ID,
  role,
  shape,
  provenance: 'placed',
});

export const freeAxis = (
  role: MarkRole,
  [fromColumn, fromRow]: readonly [number, number],
  [toColumn, toRow]: readonly [number, number],
): MarkRecord =>
  mark(role, {
    construction: 'free',
    from: filmPoint(fromColumn, fromRow),
    to: filmPoint(toColumn, toRow),
  });

export const sceneOf = (...marks: readonly MarkRecord[]): MarkScene => ({
  filmId: FILM_ID,
  marks: marks.map(ownMark),
  showAngle: true,
  strokes: 'reading',
});

/** Resolves after two frames: what was asked for is then on screen. */
export const drawn = (): Promise<void> =>
  new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(() => resolve())));
