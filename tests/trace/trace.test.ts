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

const SQUARE = { unit: 'mm', perColumn: 0.125, perRow: 0.125 } as const;
const film = { widthMm: 50, heightMm: 80, noise: 10, seed: 1 } as const;

function traced(request: TraceRequest): TracedBone {
  const result = trace(request);
  if (!result.ok) throw new Error(`expected a trace, got ${JSON.stringify(result.error)}`);
  return result.value;
}

function plain(turnDegrees: number, scale: TraceRequest['scale'] & { unit: 'mm' } = SQUARE): TraceRequest {
  const bone = bentBone(turnDegrees);
  return requestFor(bone, drawn({ ...film, scale, tubes: tubesOf(bone) }), scale);
}

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
  const middle = { x: 25, y: 30 };
  const centre = turnedAbout({ x: 25, y: 18 }, middle, 24);
  const top = turnedAbout({ x: 25, y: 11.5 }, middle, 24);
  const stump = turnedAbout({ x: 25, y: 22 }, middle, 24);
  const picture = drawn({
    ...film,
    scale: SQUARE,
    tubes: [
      { from: { x: 25, y: 72 }, to: { x: 25, y: 30.5 }, radiusMm: 4 },
      { from: middle, to: stump, radiusMm: 4.4 },
    ],
    balls: [{ at: centre, radiusMm: 6.5 }],
  });
  const request: TraceRequest = {
    ...requestFor({ base: { x: 25, y: 72 }, middle, head: top }, picture, SQUARE, 0.5),
    site: 'neck',
    view: 'lateral',
  };

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

describe('a correction', () => {
  const request = plain(20);
  const wanted = onFilm({ x: 25 - 4 - 1.3, y: 55.13 }, SQUARE);
  const corrected = traced({
    ...request,
    corrections: [{ fragment: 'proximal', side: 'one', at: wanted }],
  });

  it('is run through exactly', () => {
    const at = corrected.proximal.one.filter((point) => point.corrected);
    expect(at.map((point) => point.at)).toEqual([wanted]);
  });

  it('takes its neighbours along', () => {
    const near = corrected.proximal.one.filter(
      ({ at, corrected: own }) => !own && Math.abs(at.row - wanted.row) * SQUARE.perRow < 0.8,
    );
    expect(near.length).toBeGreaterThan(0);
    for (const { at } of near) {
      expect(Math.abs(at.column - wanted.column) * SQUARE.perColumn).toBeLessThan(0.6);
    }
  });

  it('at both ends of an outline moves the axis by half as much', () => {
    const aside = 1.3;
    const ends = [49, 57].map((y) => ({
      fragment: 'proximal' as const,
      side: 'one' as const,
      at: onFilm({ x: 25 - 4 - aside, y }, SQUARE),
    }));
    const { axis } = traced({ ...request, corrections: ends }).proximal;
    const middle = ((axis.from.column + axis.to.column) / 2) * SQUARE.perColumn;
    expect(Math.abs(middle - (25 - aside / 2))).toBeLessThan(0.3);
  });

  it('far from the fragment is refused with its number', () => {
    const far = onFilm({ x: 25, y: 5 }, SQUARE);
    const result = trace({ ...request, corrections: [{ fragment: 'proximal', side: 'one', at: far }] });
    expect(result).toMatchObject({ ok: false, error: { kind: 'correction-out-of-reach', index: 0 } });
  });
});

describe('two bones in one place', () => {
  // Two tubes cross at the break, 10° to either side of the tapped line: nothing tells which is the bone.
  const left = bentBone(-10);
  const right = bentBone(10);
  const straight = bentBone(0);
  const picture = drawn({
    ...film,
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

describe('doubts', () => {
  const kinds = (request: TraceRequest): string[] => traced(request).doubts.map(({ kind }) => kind);

  it('are none on a plain film', () => {
    expect(kinds(plain(20))).toEqual([]);
  });

  it('name a grey scale that is cut off on most of the bone', () => {
    const request = plain(20);
    const values = request.picture.values.map((value) => Math.min(value, 560));
    expect(
      kinds({ ...request, picture: { ...request.picture, values, least: 500, greatest: 560 } }),
    ).toContain('grey-scale-cut-off');
  });

  /** The proximal fragment with less of its right side showing: 1 all of it, 0 none, as bright as the bone. */
  function withFaintSide(shows: number): TraceRequest {
    const request = plain(20);
    const { columns, values } = request.picture;
    const last = Math.round(26.5 / SQUARE.perColumn);
    const faint = values.map((value, i) => {
      const row = Math.floor(i / columns);
      const bright = values[row * columns + last] ?? value;
      const faded = (row + 0.5) * SQUARE.perRow > 42.5 && i % columns > last;
      return faded ? bright + shows * (value - bright) : value;
    });
    return { ...request, picture: { ...request.picture, values: faint } };
  }

  it('name an outline that hardly shows', () => {
    expect(traced(withFaintSide(0.05)).doubts).toMatchObject([
      { kind: 'weak-outline', fragment: 'proximal', side: 'other' },
    ]);
  });

  it('become a refusal when one side does not show at all', () => {
    expect(trace(withFaintSide(0))).toMatchObject({
      ok: false,
      error: { kind: 'no-outlines', fragment: 'proximal' },
    });
  });

  it('name a fragment that is short', () => {
    const bone = { ...bentBone(20), head: turnedAbout({ x: 25, y: 27 }, { x: 25, y: 42 }, 20) };
    const picture = drawn({ ...film, scale: SQUARE, tubes: tubesOf(bone) });
    expect(kinds(requestFor(bone, picture, SQUARE))).toContain('short-lever');
  });

  it('name a head that covers its own stump', () => {
    const middle = { x: 25, y: 30 };
    const bone = { base: { x: 25, y: 72 }, middle, head: { x: 25, y: 18.5 } };
    const picture = drawn({
      ...film,
      scale: SQUARE,
      tubes: [{ from: bone.base, to: { x: 25, y: 30.5 }, radiusMm: 4 }],
      balls: [{ at: { x: 25, y: 25 }, radiusMm: 6.5 }],
    });
    const request: TraceRequest = { ...requestFor(bone, picture, SQUARE), site: 'neck' };
    expect(kinds(request)).toContain('end-on');
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
    const picture = drawn({ ...film, scale: SQUARE, tubes: [], noise: 60, seed });
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
    const picture = drawn({ ...film, scale, tubes: tubesOf(bone) });
    expect(trace(requestFor(bone, picture, scale))).toMatchObject({
      ok: false,
      error: { kind: 'film-too-coarse', pixelMm: 1 },
    });
  });
});
