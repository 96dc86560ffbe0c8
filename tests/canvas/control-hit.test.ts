import { expect, test } from 'vitest';
import { controlAt, REACH } from '../../src/canvas/control-hit.ts';
import { recordId } from '../../src/case/document.ts';
import { screenPoint } from '../../src/geometry/units.ts';

const control = (key: string, x: number, y: number) => ({
  point: { markId: recordId('mark'), key },
  at: screenPoint(x, y),
});
const controls = [control('from', 100, 100), control('to', 118, 100)];

test('the nearest control point is taken', () => {
  expect(controlAt(controls, { at: screenPoint(108, 100), type: 'mouse' })?.point.key).toBe('from');
  expect(controlAt(controls, { at: screenPoint(110, 100), type: 'mouse' })?.point.key).toBe('to');
});

test('of two in one place, the one drawn on top', () => {
  const stacked = [control('below', 50, 50), control('above', 50, 50)];
  expect(controlAt(stacked, { at: screenPoint(51, 50), type: 'mouse' })?.point.key).toBe('above');
});

test('a finger reaches farther than a mouse', () => {
  // 44 px across for touch: WCAG 2.2, 2.5.5 Target Size (Enhanced).
  expect(2 * REACH.touch).toBeGreaterThanOrEqual(44);
  const beside = screenPoint(80, 100);
  expect(controlAt(controls, { at: beside, type: 'touch' })?.point.key).toBe('from');
  expect(controlAt(controls, { at: beside, type: 'mouse' })).toBeNull();
});
