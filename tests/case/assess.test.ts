import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import type { CaseRecord, FilmRecord } from '../../src/case/document.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { arbitraryEdits, stateAfter } from './arbitrary.ts';
import { assessed, at, EXPANDED, films, knownReading, radians, reading, U } from './assessed.ts';
import { caseOf, film, free, injury, mark, settings } from './samples.ts';

describe('measured angle', () => {
  it('is the angle the axes were built with, with its 95 % interval', () => {
    const angle = knownReading(assessed(...films('film-a', 20)), 'film-a', 'angulation');
    expect(angle.value).toBeCloseTo(20, 9);
    expect(angle.standardUncertainty).toBeCloseTo(U, 4);
    expect(angle.expandedUncertainty).toBeCloseTo(EXPANDED, 4);
    expect(angle.degreesOfFreedom).toBe(Number.POSITIVE_INFINITY);
    expect(angle.definition).toBe(
      'Angle in the lateral view between the proximal axis (two free points) and the distal axis (two free points) on the lateral film of day 0.',
    );
  });

  it('has a budget whose shares add up, by axis length', () => {
    const { budget } = knownReading(assessed(...films('film-a', 20)), 'film-a', 'angulation');
    // Variances go as 1/40² and 1/30²: shares 900/2500 and 1600/2500.
    const share = (source: string) => budget.find((line) => line.source === source)?.share;
    expect(share('placing the proximal axis')).toBeCloseTo(0.36, 6);
    expect(share('placing the distal axis')).toBeCloseTo(0.64, 6);
  });

  it('is apex dorsal when the distal fragment tilts away from the tapped side, apex volar towards it', () => {
    const dorsal = knownReading(assessed(...films('film-a', 20, {}, 'left')), 'film-a', 'angulation');
    expect(dorsal).toMatchObject({ apex: 'apex dorsal', signed: true });
    const volar = knownReading(assessed(...films('film-a', 20, {}, 'right')), 'film-a', 'angulation');
    expect(volar.value).toBeCloseTo(-20, 9);
    expect(volar.apex).toBe('apex volar');
  });

  it('is a size without a direction until the side is tapped', () => {
    const angle = knownReading(assessed(...films('film-a', -20, {}, null)), 'film-a', 'angulation');
    expect(angle.value).toBeCloseTo(20, 9);
    expect(angle).toMatchObject({ apex: null, signed: false });
  });

  it('is apex radial or ulnar on a PA film', () => {
    const angle = knownReading(assessed(...films('film-a', 10, { view: 'pa' })), 'film-a', 'angulation');
    expect(angle).toMatchObject({ apex: 'apex radial', view: 'pa' });
  });

  it('is computed in millimetres where rows and columns are spaced differently', () => {
    const { spacing } = film('film-a');
    // The same pixels with rows twice as far apart: tan θ = (sin 20° · 0.1) / (cos 20° · 0.2), θ = 10.3141°.
    const records = films('film-a', 20, {
      spacing: { ...spacing, rowSpacingMm: 0.2 } as FilmRecord['spacing'],
    });
    const angle = knownReading(assessed(...records), 'film-a', 'angulation');
    expect(angle.value).toBeCloseTo((Math.atan(Math.tan(radians(20)) / 2) * 180) / Math.PI, 9);
  });

  it('takes the placing error of the case, with the degrees of freedom of its repeats', () => {
    const records = films('film-a', 20);
    const own = assessed(...records, settings({ placingErrorMm: 0.25, placingErrorDegreesOfFreedom: 5 }));
    const angle = knownReading(own, 'film-a', 'angulation');
    expect(angle.standardUncertainty).toBeCloseTo(U / 2, 4);
    expect(angle.degreesOfFreedom).toBeCloseTo(5, 6);
    // t for 95 % and 5 degrees of freedom: 2.571 (JCGM 100:2008, table G.2, as printed 2.57).
    expect(angle.expandedUncertainty / angle.standardUncertainty).toBeCloseTo(2.57, 2);
  });

  it('takes the tracer’s own uncertainty for an axis that stands as traced', () => {
    const [one, proximal, distal, side] = films('film-a', 20);
    const traced = (record: CaseRecord | undefined): CaseRecord => ({
      ...(record as Extract<CaseRecord, { kind: 'mark' }>),
      provenance: 'traced',
      tracing: { directionUncertaintyDegrees: 3, basis: 'calibrated on invented films' },
    });
    const both = assessed(one!, traced(proximal), traced(distal), side!);
    // Two directions of 3° each: √(3² + 3²) = 4.24264°.
    expect(knownReading(both, 'film-a', 'angulation').standardUncertainty).toBeCloseTo(4.24264, 4);
  });
});

describe('what is missing', () => {
  const [one, proximal, distal] = films('film-a', 20);

  it('is said by name and with what to do', () => {
    expect(reading(assessed(one!, proximal!), 'film-a', 'angulation')).toMatchObject({
      state: 'missing',
      lacks: 'The distal axis on the lateral film of day 0 is missing: place it.',
    });
    const short = mark('film-a/distal-axis', 'film-a', 'distal-axis', free([1000, 1500], [1000, 1490]));
    // 10 pixels of 0.1 mm; five placing errors of 0.5 mm are needed.
    expect(reading(assessed(one!, proximal!, short), 'film-a', 'angulation')).toMatchObject({
      lacks:
        'The distal axis on the lateral film of day 0 is 1.0\u2009mm long and needs at least 2.5\u2009mm to have a direction: place its ends farther apart.',
    });
    const tap = mark('film-a/side', 'film-a', 'dorsal-side', { construction: 'point', at: at(1001, 1800) });
    expect(reading(assessed(one!, proximal!, distal!, tap), 'film-a', 'angulation')).toMatchObject({
      lacks: expect.stringContaining('dorsal side on the lateral film of day 0 was tapped too near'),
    });
  });

  it('is not asked for on films that are only looked at', () => {
    const found = assessed(...films('film-a', 20), film('film-c', { view: 'pa' }));
    expect(found.readings.some((one) => one.filmId === 'film-c')).toBe(false);
    expect(found.next?.section).toBe('examination');
  });

  it('is marked in the order of the worksheet', () => {
    const next = (...records: readonly CaseRecord[]) => assess(caseOf(...records), SHIPPED_LIMIT_SETS).next;
    expect(next()).toMatchObject({ section: 'injury', line: 'hand' });
    expect(next(injury({ ray: null }))).toMatchObject({ section: 'injury', line: 'ray' });
    expect(next(injury())).toMatchObject({ section: 'film', line: 'film' });
    expect(next(injury(), film('film-a', { view: null }))).toMatchObject({
      section: 'film',
      line: 'view',
      filmId: 'film-a',
    });
    const pa = film('film-p', { view: 'pa' });
    expect(next(injury(), pa, one!)).toMatchObject({ line: 'proximal-axis', filmId: 'film-a' });
    expect(next(injury(), pa, one!, proximal!)).toMatchObject({ line: 'distal-axis' });
    expect(next(injury(), pa, one!, proximal!, distal!)).toMatchObject({ line: 'dorsal-side' });
    // checks.ts asks first of all for a wound over a knuckle.
    expect(next(injury(), ...films('film-a', 20))).toMatchObject({
      section: 'examination',
      line: 'knuckle-wound',
    });
  });
});

describe('cautions', () => {
  it('name the film they are about', () => {
    const found = assessed(
      ...films('film-a', 20, { stated: { viewPosition: null, laterality: 'L' } }),
      ...films('film-b', 12, { hand: 'other', lossy: true }),
    );
    const cautionOf = (id: string) => found.cautions.find((caution) => caution.id === id);
    // The case is of the right hand, the file says left.
    expect(cautionOf('side-disagrees')?.films).toEqual(['lateral film of day 0']);
    expect(cautionOf('lossy-compression')?.films).toEqual(['lateral film of the other hand']);
    expect(found.cautions[0]?.grade).toBe('stop');
  });
});

describe('what is remembered between assessments', () => {
  const spacing = { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] } as const;
  const bone = (to: number) =>
    mark('film-a/length', 'film-a', 'length', {
      construction: 'segment',
      from: at(990, 2000),
      to: at(990, to),
    });
  const start = caseOf(
    injury(),
    settings(),
    ...films('film-a', 20, { spacing }),
    bone(1400),
    ...films('film-b', 12, { hand: 'other' }),
  );
  const moved = (id: string, role: 'proximal-axis' | 'distal-axis') =>
    mark(id, 'film-a', role, free([1000, 1580], [1030, 1200]));

  it.each<[string, CaseRecord]>([
    ['proximal axis', moved('film-a/proximal-axis', 'proximal-axis')],
    ['distal axis', moved('film-a/distal-axis', 'distal-axis')],
    [
      'tapped side',
      mark('film-a/side', 'film-a', 'dorsal-side', { construction: 'point', at: at(1600, 1700) }),
    ],
    ['length', bone(1000)],
    ['finger', injury({ ray: 'index' })],
    ['placing error', settings({ placingErrorMm: 1 })],
    ['view', film('film-a', { spacing, view: 'oblique' })],
    ['name of the film', film('film-c')],
  ])('does not outlive a change of the %s', (_, record) => {
    const before = assess(start, SHIPPED_LIMIT_SETS);
    const changed = { ...start, records: { ...start.records, [record.id]: record } };
    const after = assess(changed, SHIPPED_LIMIT_SETS);
    expect(after).not.toEqual(before);
    expect(after).toEqual(assess(structuredClone(changed), SHIPPED_LIMIT_SETS));
    expect(assess(start, SHIPPED_LIMIT_SETS)).toEqual(before);
  });

  it('never shows: after any edits the answer is that of a case seen for the first time', () => {
    fc.assert(
      fc.property(arbitraryEdits, (edits) => {
        const { document } = stateAfter(edits);
        expect(assess(document, SHIPPED_LIMIT_SETS)).toEqual(
          assess(structuredClone(document), SHIPPED_LIMIT_SETS),
        );
      }),
    );
  });
});
