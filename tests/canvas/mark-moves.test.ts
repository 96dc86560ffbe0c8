import { expect, test } from 'vitest';
import { MarkMoves } from '../../src/canvas/mark-moves.ts';
import { type MarkRecord, recordId } from '../../src/case/document.ts';
import { type MarkScene, ownMark } from '../../src/drawing/scene.ts';
import { filmPoint } from '../../src/geometry/units.ts';

const filmId = recordId('film');
const axis = (to: readonly [number, number], id = 'film/distal-axis'): MarkRecord => ({
  kind: 'mark',
  id: recordId(id),
  filmId,
  role: 'distal-axis',
  shape: { construction: 'free', from: filmPoint(0, 0), to: filmPoint(...to) },
  provenance: 'placed',
});
const scene = (...marks: readonly MarkRecord[]): MarkScene => ({
  filmId,
  marks: marks.map(ownMark),
  showAngle: true,
  strokes: 'reading',
});
const end = { markId: recordId('film/distal-axis'), key: 'to' };

function moves(...marks: readonly MarkRecord[]): MarkMoves {
  const made = new MarkMoves();
  made.setScene(scene(...marks));
  return made;
}

test('a move is shown at once, with its axis', () => {
  const made = moves(axis([10, 0]));
  made.move(end, filmPoint(30, 40));
  expect(made.pointAt(end)).toEqual({ column: 30, row: 40 });
  expect(made.figures.get(end.markId)?.axis?.to).toEqual({ column: 30, row: 40 });
  expect(made.movingId).toBe(end.markId);
});

test('put back, the mark is where it was and nothing is finished', () => {
  const made = moves(axis([10, 0]));
  made.move(end, filmPoint(30, 40));
  expect(made.putBack()).toBe(end.markId);
  expect(made.pointAt(end)).toEqual({ column: 10, row: 0 });
  expect(made.finish()).toBeNull();
});

test('finished, the mark stays until the next scene, which has the last word', () => {
  const made = moves(axis([10, 0]));
  made.move(end, filmPoint(30, 40));
  expect(made.finish()).toMatchObject({ markId: end.markId, label: 'move distal axis' });
  expect(made.pointAt(end)).toEqual({ column: 30, row: 40 });
  made.setScene(scene(axis([11, 0])));
  expect(made.pointAt(end)).toEqual({ column: 11, row: 0 });
});

test('a second move goes on from the first, even before the next scene', () => {
  const made = moves(axis([10, 0]));
  made.move({ ...end, key: 'from' }, filmPoint(5, 5));
  made.finish();
  made.move(end, filmPoint(30, 40));
  expect(made.finish()?.shape).toEqual({
    construction: 'free',
    from: { column: 5, row: 5 },
    to: { column: 30, row: 40 },
  });
});

test('two marks moved before the next scene both stay', () => {
  const other = { ...end, markId: recordId('film/other') };
  const made = moves(axis([10, 0]), axis([20, 0], 'film/other'));
  made.move(end, filmPoint(30, 40));
  made.finish();
  made.move(other, filmPoint(50, 60));
  made.finish();
  expect([made.pointAt(end), made.pointAt(other)]).toEqual([
    { column: 30, row: 40 },
    { column: 50, row: 60 },
  ]);
});

test('a scene that comes while a mark is moved leaves it in hand', () => {
  const made = moves(axis([10, 0]));
  made.move(end, filmPoint(30, 40));
  made.setScene(scene(axis([10, 0]), axis([1, 1], 'film/other')));
  expect(made.pointAt(end)).toEqual({ column: 30, row: 40 });
});

test('a mark that a scene takes away is no longer moved', () => {
  const made = moves(axis([10, 0]));
  made.move(end, filmPoint(30, 40));
  made.setScene(scene());
  expect(made.movingId).toBeNull();
  expect(made.move(end, filmPoint(1, 1))).toBeNull();
  expect(made.finish()).toBeNull();
});

test('marks that did not change keep their figures, so that fits are not made again', () => {
  const other = axis([1, 1], 'film/other');
  const made = moves(axis([10, 0]), other);
  const before = made.figures.get(other.id);
  made.move(end, filmPoint(30, 40));
  expect(made.figures.get(other.id)).toBe(before);
});
