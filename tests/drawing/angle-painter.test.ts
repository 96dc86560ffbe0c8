import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paintAngle } from '../../src/drawing/angle-painter.ts';
import type { DrawCommand } from '../../src/drawing/draw-command.ts';
import type { Projection } from '../../src/drawing/projection.ts';
import type { FilmSegment } from '../../src/drawing/scene.ts';
import { READING } from '../../src/drawing/strokes.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { drawingText } from './drawing-text.ts';

const AS_IT_IS: Projection = { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };
const MIRRORED: Projection = { a: -1, b: 0, c: 0, d: 1, e: 500, f: 0 };
const READOUT = { value: '30°', uncertainty: '± 5' };

const axis = (from: readonly [number, number], to: readonly [number, number]): FilmSegment => ({
  from: filmPoint(...from),
  to: filmPoint(...to),
});
/** Straight up, ending at (200, 300). */
const UP = axis([200, 500], [200, 300]);
/** From there, up and to the right, 60° above the horizontal: 30° from the first. */
const LEANING = axis([200, 300], [300, 300 - 100 * Math.sqrt(3)]);

const arcOf = (commands: readonly DrawCommand[]) => commands.find((command) => command.kind === 'arc');
const textOf = (commands: readonly DrawCommand[]) => commands.find((command) => command.kind === 'text');

describe('the arc', () => {
  test('runs from the extension of the proximal axis to the distal axis', () => {
    const arc = arcOf(paintAngle(UP, LEANING, AS_IT_IS, READING, null));
    // Up is −90° where rows run down; 30° clockwise from there is −60°.
    expect(arc?.startDegrees).toBeCloseTo(-90, 10);
    expect(arc?.sweepDegrees).toBeCloseTo(30, 10);
    expect(arc?.centre.x).toBeCloseTo(200, 10);
    expect(arc?.centre.y).toBeCloseTo(300, 10);
  });

  test('turns the other way on a mirrored film', () => {
    expect(arcOf(paintAngle(UP, LEANING, MIRRORED, READING, null))?.sweepDegrees).toBeCloseTo(-30, 10);
  });

  test('is as wide as the angle between the axes, wherever they lie', () => {
    const angle = fc.double({ min: 1, max: 120, noNaN: true });
    const side = fc.constantFrom(-1, 1);
    const offset = fc.double({ min: -30, max: 30, noNaN: true });
    fc.assert(
      fc.property(angle, side, offset, (degrees, sign, shift) => {
        const turned = (sign * degrees * Math.PI) / 180;
        const distal = axis(
          [200 + shift, 290],
          [200 + shift + 150 * Math.sin(turned), 290 - 150 * Math.cos(turned)],
        );
        const arc = arcOf(paintAngle(UP, distal, AS_IT_IS, READING, null));
        expect(arc?.sweepDegrees).toBeCloseTo(sign * degrees, 8);
      }),
    );
  });

  test('stands at the start of the distal axis when the lines cross far away', () => {
    // 1° apart and 20 apart sideways: they cross 1146 away.
    const nearlyParallel = axis([220, 290], [220 + 150 * Math.sin(Math.PI / 180), 290 - 150]);
    const arc = arcOf(paintAngle(UP, nearlyParallel, AS_IT_IS, READING, null));
    expect(arc?.centre).toEqual({ x: 220, y: 290 });
  });

  test('of parallel axes is none, and an axis without length draws nothing', () => {
    const straight = paintAngle(UP, axis([200, 290], [200, 100]), AS_IT_IS, READING, READOUT);
    expect(arcOf(straight)).toBeUndefined();
    expect(textOf(straight)).toBeDefined();
    expect(paintAngle(UP, axis([200, 290], [200, 290]), AS_IT_IS, READING, READOUT)).toEqual([]);
  });
});

describe('the readout', () => {
  test('stands outside the arc, on the far side of the distal axis', () => {
    const text = textOf(paintAngle(UP, LEANING, AS_IT_IS, READING, READOUT));
    // Right of the line from (200, 300) along (1, −√3)/2: the cross product with it is positive.
    const across = 0.5 * (text!.at.y - 300) + (Math.sqrt(3) / 2) * (text!.at.x - 200);
    expect(across).toBeGreaterThan(10);
    expect(text?.align).toBe('left');
  });

  test('keeps off the circle of a head, however far the film is magnified', () => {
    for (const radiusColumns of [20, 60, 150]) {
      const head = { centre: filmPoint(250, 213), radiusColumns };
      const text = textOf(paintAngle(UP, LEANING, AS_IT_IS, READING, READOUT, head))!;
      // As it is, a column is one pixel wide; a control point on the rim reaches some pixels further.
      expect(Math.hypot(text.at.x - 250, text.at.y - 213)).toBeGreaterThan(radiusColumns + 10);
    }
  });

  test('stands on the other side on a mirrored film', () => {
    expect(textOf(paintAngle(UP, LEANING, MIRRORED, READING, READOUT))?.align).toBe('right');
  });
});

test('the drawing list stays as it was', async () => {
  const commands = paintAngle(UP, axis([190, 280], [290, 150]), AS_IT_IS, READING, READOUT);
  await expect(drawingText(commands)).toMatchFileSnapshot('goldens/angle.txt');
});
