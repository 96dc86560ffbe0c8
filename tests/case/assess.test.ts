import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { assess } from '../../src/case/assess.ts';
import type { Assessment } from '../../src/case/assessment.ts';
import type { CaseRecord, FilmRecord, MarkShape } from '../../src/case/document.ts';
import type { KnownReading, Quantity, Reading } from '../../src/case/reading.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { expectAsPrinted, workedExamples } from '../geometry/worked-examples.ts';
import { arbitraryEdits, stateAfter } from './arbitrary.ts';
import { caseOf, film, free, injury, mark, settings } from './samples.ts';

const at = filmPoint;
const radians = (degrees: number) => (degrees * Math.PI) / 180;

/**
 * A lateral film with a proximal axis of 40 mm straight up and a distal axis of 30 mm turned by `apart`
 * degrees to the right of it. At 0.1 mm a pixel these are 400 and 300 pixels.
 */
function films(
  id: string,
  apart: number,
  overrides: Partial<FilmRecord> = {},
  tapped: 'left' | 'right' | null = 'left',
): readonly CaseRecord[] {
  const [sine, cosine] = [Math.sin(radians(apart)), Math.cos(radians(apart))];
  const distal = free([1000, 1500], [1000 + 300 * sine, 1500 - 300 * cosine]);
  const side: MarkShape = { construction: 'point', at: at(tapped === 'left' ? 400 : 1600, 1700) };
  const role = overrides.view === 'pa' ? 'radial-side' : 'dorsal-side';
  return [
    film(id, overrides),
    mark(`${id}/proximal-axis`, id, 'proximal-axis', free([1000, 2000], [1000, 1600])),
    mark(`${id}/distal-axis`, id, 'distal-axis', distal),
    ...(tapped === null ? [] : [mark(`${id}/side`, id, role, side)]),
  ];
}

const assessed = (...records: readonly CaseRecord[]): Assessment =>
  assess(caseOf(injury(), ...records), SHIPPED_LIMIT_SETS);

const reading = (assessment: Assessment, id: string, quantity: Quantity): Reading => {
  const found = assessment.readings.find((one) => one.filmId === id && one.quantity === quantity);
  if (found === undefined) throw new Error(`no ${quantity} on ${id}`);
  return found;
};

const knownReading = (assessment: Assessment, id: string, quantity: Quantity): KnownReading => {
  const found = reading(assessment, id, quantity);
  if (found.state !== 'known') throw new Error(found.lacks);
  return found;
};

/*
 * Two-point axes of 40 and 30 mm, each coordinate placed to 0.5 mm (measurements.md, "Uncertainty"):
 * u = 0.5 · √2 · √(1/40² + 1/30²) rad = 0.7071068 · 0.0416667 rad = 0.0294628 rad = 1.68810°,
 * and the 95 % interval is 1.959964 · 1.68810° = 3.30861° either way.
 */
const U = 1.6881;
const EXPANDED = 3.30861;

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

const conventional = workedExamples('deformity', z.object({ measured: z.number() }));

describe('deformity by the conventional normal', () => {
  it.each(conventional)('$name', (example) => {
    const found = assessed(...films('film-a', example.given.measured), settings({ normal: 'published' }));
    expectAsPrinted(example, { deformity: knownReading(found, 'film-a', 'deformity').value });
  });
});

describe('deformity', () => {
  const hands = (overrides: Partial<FilmRecord> = {}, otherTapped: 'left' | null = 'left') => [
    ...films('film-a', 32),
    ...films('film-b', 12, { hand: 'other', ...overrides }, otherTapped),
  ];

  it('is the measured angle less the other hand’s, and the variances add', () => {
    const found = assessed(...hands());
    const normal = knownReading(found, 'film-a', 'normal');
    expect(normal.value).toBeCloseTo(12, 9);
    expect(normal.basis).toBe('Other hand, lateral film of the other hand');
    const deformity = knownReading(found, 'film-a', 'deformity');
    expect(deformity.value).toBeCloseTo(20, 9);
    // √2 · 1.68810° = 2.38733°, since both films have axes of the same lengths.
    expect(deformity.standardUncertainty).toBeCloseTo(2.38733, 4);
    expect(deformity.apex).toBe('apex dorsal');
    expect(deformity.budget.reduce((sum, line) => sum + line.share, 0)).toBeCloseTo(1, 9);
  });

  it('is not taken from another view, nor from axes built otherwise', () => {
    const onlyOther = settings({ normal: 'other-hand' });
    const view = assessed(...hands({ view: 'oblique' }), onlyOther);
    expect(reading(view, 'film-a', 'deformity')).toMatchObject({
      state: 'missing',
      lacks: 'The other hand is not measured in the lateral view: add its film and place both axes there.',
    });
    const cortex: MarkShape = { construction: 'dorsal-cortex', points: [at(1000, 2000), at(1000, 1600)] };
    const built = assessed(
      ...hands(),
      mark('film-b/proximal-axis', 'film-b', 'proximal-axis', cortex),
      onlyOther,
    );
    expect(reading(built, 'film-a', 'normal')).toMatchObject({
      state: 'missing',
      lacks: expect.stringContaining('build both alike'),
    });
  });

  it('takes the best there is: the other hand, else a published norm, else zero', () => {
    const published = assessed(...films('film-a', 32));
    // literature.md: conventional head-to-neck angle 15°; its spread is assumed, SD 5°.
    const normal = knownReading(published, 'film-a', 'normal');
    expect(normal.value).toBe(15);
    expect(normal.standardUncertainty).toBeCloseTo(5, 9);
    // √(5² + 1.68810²) = 5.27727
    expect(knownReading(published, 'film-a', 'deformity').standardUncertainty).toBeCloseTo(5.27727, 4);
    expect(published.cautions.map((caution) => caution.id)).toContain('normal-from-table');

    const zero = assess(caseOf(injury({ region: 'head' }), ...films('film-a', 32)), SHIPPED_LIMIT_SETS);
    expect(knownReading(zero, 'film-a', 'normal')).toMatchObject({ value: 0, standardUncertainty: 0 });
    expect(knownReading(zero, 'film-a', 'deformity').value).toBeCloseTo(32, 9);
    expect(zero.cautions.map((caution) => caution.id)).toContain('normal-taken-as-zero');
  });

  it('needs the direction on both hands where the bone may be bent either way', () => {
    const pa = [
      ...films('film-a', 12, { view: 'pa' }),
      ...films('film-b', 4, { view: 'pa', hand: 'other' }, null),
      settings({ normal: 'other-hand' }),
    ];
    expect(reading(assessed(...pa), 'film-a', 'deformity')).toMatchObject({
      lacks:
        'Which way the bone is bent is not said: tap the radial side on the PA film of day 0 and on the PA film of the other hand.',
    });
  });
});

describe('comparison with limits', () => {
  const small = (apart: number, ...more: readonly CaseRecord[]) =>
    assessed(...films('film-a', apart), ...more);

  // Common practice: the small finger's neck is accepted up to 50–60° of deformity (limits.md).
  it.each([
    [20, 'inside the limit'],
    [55, 'cannot tell'],
    [75, 'past the limit'],
  ] as const)('says of a deformity of %d°: %s', (apart, outcome) => {
    const [first] = small(apart, settings({ normal: 'zero' })).comparisons;
    expect(first).toMatchObject({
      outcome,
      readingId: 'film-a/deformity',
      comparedWith: 'deformity',
      row: { band: { lo: 50, hi: 60 } },
    });
    expect(first?.words.toLowerCase()).toContain(outcome);
  });

  it('follows the order of the chosen sets and names those that are not here', () => {
    const found = small(30, settings({ limitSetIds: ['strict-neck', 'gone', 'common-practice-adult'] }));
    expect(found.comparisons.map((comparison) => comparison.limitSet.id)).toEqual([
      'strict-neck',
      'common-practice-adult',
    ]);
    expect(found.missingLimitSetIds).toEqual(['gone']);
  });

  it('waits until the finger, its part and the view are said', () => {
    const records = films('film-a', 20);
    expect(assess(caseOf(injury({ ray: null }), ...records), SHIPPED_LIMIT_SETS).comparisons).toEqual([]);
    expect(assess(caseOf(injury({ region: null }), ...records), SHIPPED_LIMIT_SETS).comparisons).toEqual([]);
    expect(assessed(...films('film-a', 20, { view: null })).comparisons).toEqual([]);
  });
});

describe('length', () => {
  const length = mark('film-a/length', 'film-a', 'length', {
    construction: 'segment',
    from: at(1000, 1600),
    to: at(1000, 1000),
  });

  it('is in millimetres of the bone, less the magnification to reckon with', () => {
    const found = knownReading(assessed(film('film-a', { view: 'pa' }), length), 'film-a', 'length');
    // 600 pixels · 0.1 mm = 60 mm on the detector. A bone 10 to 30 mm above it, 1 m from the source, is shown
    // 1000/990 = 1.010101 to 1000/970 = 1.030928 times too long, in the middle 1.020514: 60 / 1.020514 = 58.79388.
    expect(found.value).toBeCloseTo(58.79388, 4);
    expect(found.unit).toBe('millimetres');
    // Placing: √2 · 0.5 / 1.020514 = 0.69289. Magnification: uniform, half-width 0.0104134, so a share of
    // 0.0104134 / √3 / 1.020514 = 0.0058913 of the length = 0.34637. Together √(0.69289² + 0.34637²) = 0.77464.
    expect(found.standardUncertainty).toBeCloseTo(0.77464, 4);
  });

  it('is not shown in millimetres where there is no scale', () => {
    const noScale = film('film-a', {
      spacing: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
    });
    expect(reading(assessed(noScale, length), 'film-a', 'length')).toMatchObject({
      state: 'missing',
      lacks: expect.stringContaining('lateral film of day 0 has no scale'),
    });
  });
});

describe('a film without a scale', () => {
  const spacing = { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] } as const;

  it('has angles, whose uncertainty comes from the length of the bone', () => {
    // 536.9 pixels stand for the small metacarpal's mean length of 53.69 mm (Buryanov and Kotiuk 2010,
    // table I): 10 pixels to the millimetre, as on the film with a scale.
    const bone = mark('film-a/length', 'film-a', 'length', {
      construction: 'segment',
      from: at(1000, 2000),
      to: at(1000, 2000 - 536.9),
    });
    const found = assessed(...films('film-a', 20, { spacing }), bone);
    const angle = knownReading(found, 'film-a', 'angulation');
    expect(angle.value).toBeCloseTo(20, 9);
    expect(angle.standardUncertainty).toBeCloseTo(U, 4);
    expect(found.cautions.map((caution) => caution.id)).toContain('no-spacing');
  });

  it('has wider intervals without a length, never narrower', () => {
    const angle = knownReading(assessed(...films('film-a', 20, { spacing })), 'film-a', 'angulation');
    expect(angle.standardUncertainty).toBeGreaterThan(U);
    expect(angle.budget[0]?.basis).toContain('guessed from how far the axes reach');
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
