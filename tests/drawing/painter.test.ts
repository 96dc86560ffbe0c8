import { describe, expect, test } from 'vitest';
import { type MarkShape, recordId } from '../../src/case/document.ts';
import { advance, startPlacing } from '../../src/case/placing.ts';
import type { DrawCommand } from '../../src/drawing/draw-command.ts';
import { draftFigure, figureOf } from '../../src/drawing/figure.ts';
import { paintFigure } from '../../src/drawing/painter.ts';
import type { Projection } from '../../src/drawing/projection.ts';
import { ownMark } from '../../src/drawing/scene.ts';
import { HANDLE_RADIUS, PROJECTOR, READING } from '../../src/drawing/strokes.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { drawingText } from './drawing-text.ts';

/** Two screen pixels per column and row, the film's corner at (10, 20). */
const DOUBLE: Projection = { a: 2, b: 0, c: 0, d: 2, e: 10, f: 20 };
/** Four, so that the control points of a small head are far enough apart to be drawn in full. */
const FOURFOLD: Projection = { a: 4, b: 0, c: 0, d: 4, e: 10, f: 20 };
const SQUARE = { unit: 'mm', perColumn: 0.15, perRow: 0.15 } as const;
const PLAIN = { scale: READING, focusedKey: null, readout: null };

const figure = (role: Parameters<typeof ownMark>[0]['role'], shape: MarkShape, plane = SQUARE) =>
  figureOf(
    ownMark({
      kind: 'mark',
      id: recordId(role),
      filmId: recordId('film'),
      role,
      shape,
      provenance: 'placed',
    }),
    plane,
  );

const free = (from: readonly [number, number], to: readonly [number, number]): MarkShape => ({
  construction: 'free',
  from: filmPoint(...from),
  to: filmPoint(...to),
});

const ofKind = <Kind extends DrawCommand['kind']>(commands: readonly DrawCommand[], kind: Kind) =>
  commands.filter((command): command is Extract<DrawCommand, { kind: Kind }> => command.kind === kind);

describe('an axis', () => {
  test('runs between its control points and stops at their rims', () => {
    const commands = paintFigure(figure('proximal-axis', free([0, 0], [30, 40])), DOUBLE, PLAIN);
    const [line] = ofKind(commands, 'line');
    // On screen from (10, 20) to (70, 100): 100 pixels along (0.6, 0.8); 5 of them are left free at each end.
    expect(HANDLE_RADIUS).toBe(5);
    expect(line?.points[0]?.x).toBeCloseTo(10 + 3, 10);
    expect(line?.points[0]?.y).toBeCloseTo(20 + 4, 10);
    expect(line?.points[1]?.x).toBeCloseTo(70 - 3, 10);
    expect(line?.points[1]?.y).toBeCloseTo(100 - 4, 10);
  });

  test('is told apart by colour, line and the form of its control points', () => {
    const proximal = paintFigure(figure('proximal-axis', free([0, 0], [50, 0])), DOUBLE, PLAIN);
    const distal = paintFigure(figure('distal-axis', free([0, 0], [50, 0])), DOUBLE, PLAIN);
    // Colours: Okabe and Ito's orange and sky blue (Color Universal Design), as the design asks.
    expect(ofKind(proximal, 'line')[0]).toMatchObject({ colour: '#E69F00', dash: [], cap: 'square' });
    expect(ofKind(proximal, 'square')).toHaveLength(2);
    expect(ofKind(distal, 'line')[0]).toMatchObject({ colour: '#56B4E9', cap: 'round' });
    expect(ofKind(distal, 'line')[0]?.dash).not.toEqual([]);
    expect(ofKind(distal, 'circle')).toHaveLength(2);
  });

  test('of two points in one place has no line and does not fail', () => {
    const commands = paintFigure(figure('proximal-axis', free([7, 7], [7, 7])), DOUBLE, PLAIN);
    expect(ofKind(commands, 'square')).toHaveLength(2);
    expect(drawingText(commands)).not.toContain('null');
  });

  test('has strokes twice as wide for a projector', () => {
    const shape = figure('distal-axis', free([0, 0], [50, 0]));
    const [reading] = ofKind(paintFigure(shape, DOUBLE, PLAIN), 'line');
    const [projector] = ofKind(paintFigure(shape, DOUBLE, { ...PLAIN, scale: PROJECTOR }), 'line');
    expect(projector?.width).toBe(2 * reading!.width);
    expect(projector?.dash).toEqual(reading!.dash.map((length) => 2 * length));
  });
});

describe('a head', () => {
  // Three points of the circle of radius 5 round (10, 10): 3-4-5 triangles.
  const rim = [filmPoint(13, 14), filmPoint(6, 7), filmPoint(14, 7)];

  test('has its circle through the rim', () => {
    const shape: MarkShape = { construction: 'head', rim, brokenEnd: filmPoint(10, 40) };
    const arcs = ofKind(paintFigure(figure('distal-axis', shape), DOUBLE, PLAIN), 'arc');
    // Centre (10, 10) on screen: (10 + 2 · 10, 20 + 2 · 10); radius 2 · 5.
    expect(arcs).toHaveLength(3);
    for (const { centre, radius } of arcs) {
      expect(centre.x).toBeCloseTo(30, 6);
      expect(centre.y).toBeCloseTo(40, 6);
      expect(radius).toBeCloseTo(10, 6);
    }
  });

  test('has its circle open where the control points are', () => {
    const shape: MarkShape = { construction: 'head', rim, brokenEnd: filmPoint(10, 40) };
    const arcs = ofKind(paintFigure(figure('distal-axis', shape), FOURFOLD, PLAIN), 'arc');
    // A ring of radius 5 on a circle of radius 20 hides 2 · asin(5 / 40) to either side: 14.361°.
    const open = 2 * Math.asin(5 / 40) * (180 / Math.PI);
    const whole = arcs.reduce((sum, arc) => sum + arc.sweepDegrees, 0);
    expect(whole).toBeCloseTo(360 - 6 * open, 6);
    for (const [x, y] of [
      [3, 4],
      [-4, -3],
      [4, -3],
    ] as const) {
      const angle = Math.atan2(y, x) * (180 / Math.PI);
      const covered = arcs.some((arc) => (angle - arc.startDegrees + 720) % 360 < arc.sweepDegrees);
      expect(covered).toBe(false);
    }
  });

  test('has its whole circle where the control points are not shown', () => {
    const shape: MarkShape = { construction: 'head', rim, brokenEnd: filmPoint(10, 40) };
    const hidden = { ...figure('distal-axis', shape), showPoints: false };
    const commands = paintFigure(hidden, DOUBLE, PLAIN);
    expect(Math.max(...ofKind(commands, 'circle').map(({ radius }) => radius))).toBeCloseTo(10, 6);
    expect(ofKind(commands, 'arc')).toEqual([]);
  });

  test('has a round circle on screen where rows and columns are spaced unequally', () => {
    // A plane circle of radius 5 mm round (10, 10) mm, columns 1 mm and rows 0.5 mm apart.
    const spacing = { unit: 'mm', perColumn: 1, perRow: 0.5 } as const;
    const stretched: MarkShape = {
      construction: 'head',
      rim: rim.map(({ column, row }) => filmPoint(column, 2 * row)),
      brokenEnd: filmPoint(10, 80),
    };
    const projection: Projection = { a: 4, b: 0, c: 0, d: 2, e: 0, f: 0 };
    const commands = paintFigure(
      figureOf(
        ownMark({
          kind: 'mark',
          id: recordId('m'),
          filmId: recordId('film'),
          role: 'distal-axis',
          shape: stretched,
          provenance: 'placed',
        }),
        spacing,
      ),
      projection,
      PLAIN,
    );
    const [arc] = ofKind(commands, 'arc');
    // 4 screen pixels per mm in both directions: centre (40, 40), radius 20.
    expect(arc?.centre.x).toBeCloseTo(40, 6);
    expect(arc?.centre.y).toBeCloseTo(40, 6);
    expect(arc?.radius).toBeCloseTo(20, 6);
  });

  test('whose points lie on a line shows its points alone', () => {
    const shape: MarkShape = {
      construction: 'head',
      rim: [filmPoint(0, 0), filmPoint(10, 0), filmPoint(20, 0)],
      brokenEnd: filmPoint(10, 40),
    };
    const commands = paintFigure(figure('distal-axis', shape), DOUBLE, PLAIN);
    expect(commands.map(({ kind }) => kind)).toEqual(['circle', 'circle', 'circle', 'circle']);
  });

  test('being placed shows its circle before the broken end is placed', () => {
    let placing = startPlacing('distal-axis', 'head', 3);
    for (const point of rim) {
      const next = advance(placing, point);
      if (next.state === 'placing') placing = next.placing;
    }
    const commands = paintFigure(draftFigure(placing, SQUARE), DOUBLE, PLAIN);
    expect(ofKind(commands, 'arc')[0]?.radius).toBeCloseTo(10, 6);
  });
});

describe('a length', () => {
  const segment: MarkShape = { construction: 'segment', from: filmPoint(0, 0), to: filmPoint(0, 50) };

  test('has its readout in the middle, beside the line', () => {
    const readout = { value: '7.5 mm', uncertainty: '± 0.9' };
    const [text] = ofKind(paintFigure(figure('length', segment), DOUBLE, { ...PLAIN, readout }), 'text');
    // The line runs on screen from (10, 20) to (10, 120).
    expect(text?.at.y).toBeCloseTo(70, 10);
    expect(text?.at.x).toBeGreaterThan(10);
    expect(text?.align).toBe('left');
    expect(text?.runs.map((run) => run.text.trim())).toEqual(['7.5 mm', '± 0.9']);
  });

  test('has its readout on the same side whichever way it was placed', () => {
    const readout = { value: '7.5 mm', uncertainty: null };
    const back: MarkShape = { construction: 'segment', from: segment.to, to: segment.from };
    const [one, other] = [segment, back].map(
      (shape) => ofKind(paintFigure(figure('length', shape), DOUBLE, { ...PLAIN, readout }), 'text')[0]?.at,
    );
    expect(other).toEqual(one);
  });
});

describe('control points near one another', () => {
  const sizes = (apart: number, focusedKey: string | null = null) =>
    ofKind(
      paintFigure(figure('proximal-axis', free([0, 0], [apart / 2, 0])), DOUBLE, { ...PLAIN, focusedKey }),
      'square',
    ).map(({ half }) => half);

  // Two whole ones of radius 5 are 24 pixels apart or more; nearer, their size goes with the distance, down to a half.
  test.each([
    { apart: 100, size: 5 },
    { apart: 24, size: 5 },
    { apart: 18, size: 3.75 },
    { apart: 12, size: 2.5 },
    { apart: 2, size: 2.5 },
  ])('are drawn with a radius of $size pixels where they are $apart apart', ({ apart, size }) => {
    for (const each of sizes(apart)) expect(each).toBeCloseTo(size, 10);
  });

  test('still show which has the focus, by the same three pixels', () => {
    const { key } = figure('proximal-axis', free([0, 0], [6, 0])).points[0]!;
    expect(sizes(12, key)).toEqual([5.5, 2.5]);
  });
});

describe('drawing lists stay as they were', () => {
  const canal: MarkShape = {
    construction: 'canal',
    levels: [
      { one: filmPoint(10, 100), other: filmPoint(30, 100) },
      { one: filmPoint(10, 50), other: filmPoint(30, 50) },
    ],
  };
  const head: MarkShape = {
    construction: 'head',
    rim: [filmPoint(23, 24), filmPoint(16, 17), filmPoint(24, 17)],
    brokenEnd: filmPoint(20, 45),
  };
  test.each([
    { name: 'canal', commands: () => paintFigure(figure('proximal-axis', canal), DOUBLE, PLAIN) },
    {
      name: 'head-focused',
      commands: () => paintFigure(figure('distal-axis', head), DOUBLE, { ...PLAIN, focusedKey: 'rim-2' }),
    },
    {
      name: 'dorsal-side',
      commands: () =>
        paintFigure(figure('dorsal-side', { construction: 'point', at: filmPoint(5, 5) }), DOUBLE, PLAIN),
    },
    {
      name: 'length',
      commands: () =>
        paintFigure(
          figure('length', { construction: 'segment', from: filmPoint(0, 90), to: filmPoint(40, 0) }),
          DOUBLE,
          { scale: PROJECTOR, focusedKey: null, readout: { value: '14.8 mm', uncertainty: '± 0.7' } },
        ),
    },
  ])('$name', async ({ name, commands }) => {
    await expect(drawingText(commands())).toMatchFileSnapshot(`goldens/${name}.txt`);
  });
});
