import { describe, expect, it } from 'vitest';
import { filmPoint } from '../../src/geometry/units.ts';
import type { Correction } from '../../src/trace/request.ts';
import { trace } from '../../src/trace/trace.ts';
import { onFilm, turnedAbout } from './drawn-film.ts';
import { ballOnStump, plain, SQUARE, traced } from './on-drawn-film.ts';

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

  /** The last outline point of the proximal fragment towards the break, moved along the bone and aside. */
  const beyond = (alongMm: number, asideMm = 0.8) => {
    const end = traced(request).proximal.one.at(-1)!.at;
    return onFilm(
      { x: end.column * SQUARE.perColumn - asideMm, y: end.row * SQUARE.perRow - alongMm },
      SQUARE,
    );
  };
  const correcting = (at: Correction['at']) =>
    trace({ ...request, corrections: [{ fragment: 'proximal', side: 'one', at }] });

  it.each([0.6, 1, 1.4])('%s mm beyond what is traced is refused, and not drawn as obeyed', (alongMm) => {
    const result = correcting(beyond(alongMm));
    if (result.ok || result.error.kind !== 'correction-out-of-reach') throw new Error('not refused');
    expect(result.error.index).toBe(0);
    // The stretch ends within half a row, 0.25 mm, of the last point.
    expect(Math.abs(result.error.distanceMm - alongMm)).toBeLessThan(0.26);
  });

  it('within it is run through up to its very ends', () => {
    const last = beyond(-0.5);
    const result = correcting(last);
    if (!result.ok) throw new Error(result.error.kind);
    expect(result.value.proximal.one.filter(({ corrected }) => corrected)).toMatchObject([{ at: last }]);
  });

  it('that another one in the same place overrules is refused with its number', () => {
    const nearby = onFilm({ x: 25 - 4 + 0.9, y: 55.13 }, SQUARE);
    const corrections = [wanted, nearby].map((at) => ({ fragment: 'proximal', side: 'one', at }) as const);
    expect(trace({ ...request, corrections })).toEqual({
      ok: false,
      error: { kind: 'correction-not-followed', index: 0 },
    });
  });
});

describe('a correction of a neck', () => {
  const request = ballOnStump(24);
  const correcting = (at: Correction['at'], side: Correction['side'] = 'one') =>
    trace({ ...request, corrections: [{ fragment: 'distal', side, at }] });
  const outline = traced(request).distal.one;
  const moved = ({ column, row }: Correction['at'], degrees: number, alongMm: number, asideMm: number) => {
    const by = turnedAbout({ x: -asideMm, y: -alongMm }, { x: 0, y: 0 }, degrees);
    return filmPoint(column + by.x / SQUARE.perColumn, row + by.y / SQUARE.perRow);
  };

  it('is run through exactly where its outline was found', () => {
    expect(outline.length).toBeGreaterThan(3);
    const at = moved(outline[Math.floor(outline.length / 2)]!.at, 24, 0, 0.3);
    const result = correcting(at);
    if (!result.ok) throw new Error(result.error.kind);
    expect(result.value.distal.one.filter(({ corrected }) => corrected)).toMatchObject([{ at }]);
  });

  it.each([1, 3, 6])('%s mm beyond it, on the head, is refused', (alongMm) => {
    expect(correcting(moved(outline.at(-1)!.at, 24, alongMm, 0.5))).toMatchObject({
      ok: false,
      error: { kind: 'correction-out-of-reach', index: 0 },
    });
  });
});
