import { describe, expect, it } from 'vitest';
import type { TraceRequest } from '../../src/trace/request.ts';
import { trace } from '../../src/trace/trace.ts';
import { bentBone, drawn, requestFor, tubesOf, turnedAbout } from './drawn-film.ts';
import { FILM, plain, SQUARE, traced } from './on-drawn-film.ts';

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
    const picture = drawn({ ...FILM, scale: SQUARE, tubes: tubesOf(bone) });
    expect(kinds(requestFor(bone, picture, SQUARE))).toContain('short-lever');
  });

  it('name a head that covers its own stump', () => {
    const middle = { x: 25, y: 30 };
    const bone = { base: { x: 25, y: 72 }, middle, head: { x: 25, y: 18.5 } };
    const picture = drawn({
      ...FILM,
      scale: SQUARE,
      tubes: [{ from: bone.base, to: { x: 25, y: 30.5 }, radiusMm: 4 }],
      balls: [{ at: { x: 25, y: 25 }, radiusMm: 6.5 }],
    });
    const request: TraceRequest = { ...requestFor(bone, picture, SQUARE), site: 'neck' };
    expect(kinds(request)).toContain('end-on');
  });
});
