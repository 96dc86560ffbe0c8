import { describe, expect, it } from 'vitest';
import { turnBetween } from '../../src/geometry/axis.ts';
import { constructAxis } from '../../src/geometry/constructions.ts';
import { toPlane } from '../../src/geometry/spacing.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import type { BonePicture } from '../../src/trace/picture.ts';
import type { TraceRequest } from '../../src/trace/request.ts';
import { trace } from '../../src/trace/trace.ts';
import type { TracedBone } from '../../src/trace/traced.ts';
import { bentBone, drawn, onFilm, requestFor, tubesOf, turnedAbout } from './drawn-film.ts';
import { ballAt, ballOnStump, FILM, plain, SQUARE, traced } from './on-drawn-film.ts';

describe('a bone drawn from a formula', () => {
  // The truth is the angle the bone was drawn with. 0.5°: the outlines of a clean tube are found to about
  // 0.05 mm, over 14 mm.
  it.each([0, 12, -27, 48])('is read as %s° clockwise', (turn) => {
    const result = traced(plain(turn));
    expect(Math.abs(result.turnDegrees - turn)).toBeLessThan(0.5);
    expect(result.interval.from).toBeLessThan(turn);
    expect(result.interval.to).toBeGreaterThan(turn);
    expect(result.sure).toBe(true);
    expect(result.second).toBeNull();
  });

  it('is read in the plane, not in pixels, where rows lie farther apart than columns', () => {
    const scale = { unit: 'mm', perColumn: 0.1, perRow: 0.16 } as const;
    expect(Math.abs(traced(plain(30, scale)).turnDegrees - 30)).toBeLessThan(0.5);
  });

  it('has outlines where the tube ends: one radius to either side of its middle line', () => {
    const { proximal } = traced(plain(20));
    const across = (points: TracedBone['proximal']['one']): number[] =>
      points.map(({ at }) => at.column * SQUARE.perColumn - 25);
    // Walking up from the base, the left is the smaller column.
    for (const x of across(proximal.one)) expect(Math.abs(x + 4)).toBeLessThan(0.3);
    for (const x of across(proximal.other)) expect(Math.abs(x - 4)).toBeLessThan(0.3);
  });

  it('is read the same when taps err by a millimetre', () => {
    const request = plain(25);
    const { taps } = request;
    const moved = (point: typeof taps.base, dx: number, dy: number) =>
      filmPoint(point.column + dx / SQUARE.perColumn, point.row + dy / SQUARE.perRow);
    const result = traced({
      ...request,
      tapErrorMm: 1,
      taps: {
        base: moved(taps.base, 1.2, 0.5),
        proximalEnd: moved(taps.proximalEnd, -1, 0.4),
        distalEnd: moved(taps.distalEnd, 0.8, -0.9),
        headEnd: moved(taps.headEnd, -1, 0.6),
      },
    });
    expect(Math.abs(result.turnDegrees - 25)).toBeLessThan(0.8);
  });

  it('is read the same with its film stored bone-dark and turned over, and mirrored when the film is', () => {
    const request = plain(22);
    const { columns, rows, values } = request.picture;
    const mirrored: BonePicture = {
      ...request.picture,
      values: values.map((_, i) => values[i - (i % columns) + columns - 1 - (i % columns)] ?? 0),
    };
    const flip = ({ column, row }: TraceRequest['taps']['base']) => filmPoint(columns - column, row);
    const { base, proximalEnd, distalEnd, headEnd } = request.taps;
    const result = traced({
      ...request,
      picture: mirrored,
      taps: {
        base: flip(base),
        proximalEnd: flip(proximalEnd),
        distalEnd: flip(distalEnd),
        headEnd: flip(headEnd),
      },
    });
    expect(rows).toBeGreaterThan(0);
    expect(Math.abs(result.turnDegrees + 22)).toBeLessThan(0.5);
  });

  it('is read the same from a negative that does not say so, and the reading says so', () => {
    const request = plain(25);
    const { picture } = request;
    const negative = {
      ...picture,
      values: picture.values.map((value) => picture.greatest - value),
      least: 0,
      greatest: picture.greatest - picture.least,
    };
    const result = traced({ ...request, picture: negative });
    expect(Math.abs(result.turnDegrees - 25)).toBeLessThan(0.5);
    expect(result.doubts).toContainEqual({ kind: 'negative', plain: true });
    expect(result.sure).toBe(traced(request).sure);
    expect(traced(request).doubts.map(({ kind }) => kind)).not.toContain('negative');
  });

  it('leaves marks whose own construction gives the traced axes', () => {
    const result = traced(plain(33));
    for (const fragment of [result.proximal, result.distal]) {
      const { shape, axis } = fragment;
      if (shape.construction !== 'cortex-pair') throw new Error('a shaft has a cortex pair');
      const built = constructAxis(
        {
          construction: 'cortex-pair',
          levels: shape.levels.map(({ one, other }) => ({
            one: toPlane(one, SQUARE),
            other: toPlane(other, SQUARE),
          })),
        },
        { standardUncertainty: 0.5, basis: { kind: 'assumed' } } as never,
      );
      if (!built.ok) throw new Error(`no axis: ${built.error.kind}`);
      const shown = { from: toPlane(axis.from, SQUARE), to: toPlane(axis.to, SQUARE) };
      expect(Math.abs(turnBetween(built.value.axis, shown))).toBeLessThan(1e-6);
    }
  });

  it('gives the same answer twice and leaves the request as it was', () => {
    const request = plain(15);
    const before = request.picture.values.slice();
    expect(trace(request)).toEqual(trace(request));
    expect(request.picture.values).toEqual(before);
  });

  it('is read without a scale, and says that sizes were guessed', () => {
    const request = { ...plain(18), scale: { unit: 'column', perColumn: 1, perRow: 1 } as const };
    const result = traced(request);
    expect(Math.abs(result.turnDegrees - 18)).toBeLessThan(0.7);
    expect(result.doubts.map(({ kind }) => kind)).toContain('scale-guessed');
  });
});

describe('a head drawn as a ball', () => {
  const request = ballOnStump(24);
  const { centre, top } = ballAt(24);

  it('gives the line from the broken end to its centre', () => {
    const result = traced(request);
    // Four taps without error and a clean ball: within a degree of the angle drawn.
    expect(Math.abs(result.turnDegrees - 24)).toBeLessThan(1);
    const { shape } = result.distal;
    if (shape.construction !== 'head') throw new Error('a neck has a head');
    for (const { column, row } of shape.rim) {
      const radius = Math.hypot(column * 0.125 - centre.x, row * 0.125 - centre.y);
      expect(Math.abs(radius - 6.5)).toBeLessThan(0.3);
    }
  });

  it('is found though the head was tapped 2 mm aside', () => {
    const aside = { ...request.taps, headEnd: onFilm({ x: top.x + 2, y: top.y }, SQUARE) };
    const result = traced({ ...request, taps: aside, tapErrorMm: 1 });
    // By hand this tap turns the axis by atan(2 / 18.5) = 6.2°.
    expect(Math.abs(result.turnDegrees - 24)).toBeLessThan(3);
  });
});

describe('two bones in one place', () => {
  // Two tubes cross at the break, 10° to either side of the tapped line: nothing tells which is the bone.
  const left = bentBone(-10);
  const right = bentBone(10);
  const straight = bentBone(0);
  const picture = drawn({
    ...FILM,
    scale: SQUARE,
    tubes: [...tubesOf(left), ...tubesOf(right).slice(1)],
  });
  const request = { ...requestFor(straight, picture, SQUARE, 1), view: 'lateral' } as const;

  it('are told, and the reading is not sure', () => {
    const result = traced(request);
    expect(result.sure).toBe(false);
    const turns = [result.turnDegrees, result.second?.turnDegrees ?? 0].sort((p, q) => p - q);
    expect(Math.abs((turns[0] ?? 0) + 10)).toBeLessThan(1.5);
    expect(Math.abs((turns[1] ?? 0) - 10)).toBeLessThan(1.5);
    expect(result.doubts.map(({ kind }) => kind)).toContain('parallel-outlines');
    expect(result.interval.from).toBeLessThan(-10);
    expect(result.interval.to).toBeGreaterThan(10);
  });

  it('are told apart by brackets', () => {
    const at = (x: number, y: number, turn: number) =>
      onFilm(turnedAbout({ x, y }, { x: 25, y: 42 }, turn), SQUARE);
    const bracketed = (turn: number): TraceRequest => ({
      ...request,
      tapErrorMm: 0.7,
      brackets: [36, 24].map((y) => ({
        fragment: 'distal',
        one: at(21, y, turn),
        other: at(29, y, turn),
      })),
    });
    expect(Math.abs(traced(bracketed(-10)).turnDegrees + 10)).toBeLessThan(1);
    expect(Math.abs(traced(bracketed(10)).turnDegrees - 10)).toBeLessThan(1);
  });
});

describe('no trace', () => {
  const request = plain(10);
  const refusal = (changed: Partial<TraceRequest>): unknown => {
    const result = trace({ ...request, ...changed });
    return result.ok ? 'a trace' : result.error;
  };

  it('on a film of one grey', () => {
    const values = request.picture.values.map(() => 700);
    expect(refusal({ picture: { ...request.picture, values } })).toMatchObject({ kind: 'blank-film' });
  });

  it.each([1, 2, 3, 4, 5, 6])('on a film of noise alone, seed %s', (seed) => {
    const picture = drawn({ ...FILM, scale: SQUARE, tubes: [], noise: 60, seed });
    expect(refusal({ picture })).toMatchObject({ kind: 'no-outlines' });
    expect(refusal({ picture, site: 'neck' })).toMatchObject({ kind: 'no-outlines' });
  });

  it('with a tap beside the film', () => {
    const taps = { ...request.taps, headEnd: filmPoint(-3, 50) };
    expect(refusal({ taps })).toEqual({ kind: 'tap-off-film', tap: 'headEnd' });
  });

  it('with two taps in one place, giving the length and what is needed', () => {
    const taps = { ...request.taps, base: request.taps.proximalEnd };
    expect(refusal({ taps })).toEqual({
      kind: 'taps-too-close',
      fragment: 'proximal',
      lengthMm: 0,
      neededMm: 10,
    });
  });

  it('on a film of pixels as large as a cortex is thick', () => {
    const scale = { unit: 'mm', perColumn: 1, perRow: 1 } as const;
    const bone = bentBone(10);
    const picture = drawn({ ...FILM, scale, tubes: tubesOf(bone) });
    expect(trace(requestFor(bone, picture, scale))).toMatchObject({
      ok: false,
      error: { kind: 'film-too-coarse', pixelMm: 1 },
    });
  });
});
