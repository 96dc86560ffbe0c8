import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/case/assess.ts';
import type { CaseRecord, FilmRecord } from '../../../src/case/document.ts';
import { caseOf, film, free, injury, line, on, settings } from '../samples.ts';

/** Pixels of 0.1 mm at the bone itself, so that no magnification is reckoned with. */
const spacing = { ...film('any').spacing, plane: 'patient' } as FilmRecord['spacing'];

/** A proximal axis straight up the film at column 1000, and a distal one that starts at (1000, 1500). */
const axes = (
  id: string,
  distalEnd: readonly [number, number],
  start: readonly [number, number] = [1000, 1500],
) => [
  on(id, 'proximal-axis', free([1000, 2000], [1000, 1600])),
  on(id, 'distal-axis', free(start, distalEnd)),
];
const bendOf = (...records: readonly CaseRecord[]) =>
  assess(caseOf(injury({ ray: 'small', region: 'shaft' }), settings(), ...records), []).readings.find(
    ({ quantity }) => quantity === 'bend-place',
  );

describe('the place of the bend on a film', () => {
  it('is a share of the length, with the millimetres and where a sound bone bends beside it', () => {
    // The lines meet at (1000, 1500), 50 of the 80 mm from the base: 62.5 %.
    const reading = bendOf(
      film('side', { spacing }),
      ...axes('side', [1300, 1200]),
      line('side', 'length', [1000, 2000], [1000, 1200]),
    );
    expect(reading).toMatchObject({
      state: 'known',
      unit: 'percent of bone',
      value: expect.closeTo(62.5, 9),
      // Bhandari et al. 2017, table 2.
      basis: '50\u2009mm from the base; a sound small finger bends at 50.3\u2009% (SD 12.4; Bhandari 2017)',
    });
  });

  it('says nothing of sound bones from the front, nor of millimetres without a scale', () => {
    const front = bendOf(
      film('front', {
        view: 'pa',
        spacing: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
      }),
      ...axes('front', [1300, 1200]),
      line('front', 'length', [1000, 2000], [1000, 1200]),
    );
    expect(front).toMatchObject({ state: 'known', value: expect.closeTo(62.5, 9), basis: null });
  });

  it.each([
    ['without the length', axes('side', [1300, 1200])],
    ['without an axis', [on('side', 'proximal-axis', free([1000, 2000], [1000, 1600]))]],
  ])('is not there %s', (_, marks) => {
    expect(bendOf(film('side', { spacing }), ...marks)).toBeUndefined();
  });

  it('is not there on the other hand', () => {
    const marks = [...axes('o', [1300, 1200]), line('o', 'length', [1000, 2000], [1000, 1200])];
    expect(bendOf(film('o', { hand: 'other', spacing }), ...marks)).toBeUndefined();
  });

  it('says why there is none: axes nearly parallel, a crossing beyond the bone', () => {
    const length = line('side', 'length', [1000, 2000], [1000, 1200]);
    // atan(30/300) is 5.7°, and 7.5 times 0.5 √2 √(1/40² + 1/30.1²) rad is 12.6°.
    expect(bendOf(film('side', { spacing }), ...axes('side', [1030, 1200]), length)).toMatchObject({
      state: 'missing',
      lacks: expect.stringMatching(/are 6° apart, and below 13° it cannot be told/),
    });
    // At 45° from (1600, 1500) the line meets column 1000 at row 2100, below the base.
    expect(
      bendOf(film('side', { spacing }), ...axes('side', [1900, 1200], [1600, 1500]), length),
    ).toMatchObject({
      state: 'missing',
      lacks: expect.stringMatching(/cross beyond the base.*displaced sideways/),
    });
  });
});
