import { expect } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import type { CaseRecord, FilmRecord, MarkRole, MarkShape, SettingsRecord } from '../../src/case/document.ts';
import type { Quantity } from '../../src/case/reading.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { caseOf, dot, film, free, injury, line, on, settings } from './samples.ts';

/**
 * What cannot be read gets a sentence that says what happened, on which film and what to do, and no number: a
 * wrong number looks like a right one.
 */
export type Pair = readonly [number, number];
const { spacing: atDetector } = film('any');
export const spacing = { ...atDetector, plane: 'patient' } as FilmRecord['spacing'];
export const noScale = { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] } as const;

/** A film with both axes, the distal one leaning. */
export function bent(id: string, lean: number, overrides: Partial<FilmRecord> = {}): readonly CaseRecord[] {
  const angle = (lean * Math.PI) / 180;
  const end: Pair = [1000 + 300 * Math.sin(angle), 1500 - 300 * Math.cos(angle)];
  return [
    film(id, { spacing, ...overrides }),
    on(id, 'proximal-axis', free([1000, 2000], [1000, 1600])),
    on(id, 'distal-axis', free([1000, 1500], end)),
    dot(id, overrides.view === 'pa' ? 'radial-side' : 'dorsal-side', [400, 1700]),
  ];
}
export const replaced = (records: readonly CaseRecord[], by: CaseRecord) =>
  records.map((record) => (record.id === by.id ? by : record));
export const without = (records: readonly CaseRecord[], id: string) =>
  records.filter((record) => record.id !== id);

export const pa = { view: 'pa' } as const;
export const sound = { hand: 'other' } as const;
export const length = (id: string, top: number) => line(id, 'length', [1000, 2000], [1000, top]);
export const rim = (points: readonly Pair[]): MarkShape => ({
  construction: 'head',
  rim: points.map((point) => filmPoint(...point)),
  brokenEnd: filmPoint(1000, 1500),
});
export const cortex = (points: readonly Pair[]): MarkShape => ({
  construction: 'dorsal-cortex',
  points: points.map((point) => filmPoint(...point)),
});
export const canal = (levels: readonly (readonly [Pair, Pair])[]): MarkShape => ({
  construction: 'canal',
  levels: levels.map(([one, other]) => ({ one: filmPoint(...one), other: filmPoint(...other) })),
});

export interface Wrong {
  readonly records: readonly CaseRecord[];
  readonly settings?: Partial<SettingsRecord>;
  /** The readings that must be missing, and on which film. */
  readonly missing: readonly (readonly [filmId: string, quantity: Quantity])[];
  readonly says: RegExp;
}

export const angle = (filmId: string) => [filmId, 'angulation'] as const;
/** A bent bone of which one axis is drawn as it should not be. */
export const withAxis = (role: MarkRole, shape: MarkShape, says: RegExp): Wrong => ({
  records: replaced(bent('here', 20), on('here', role, shape)),
  missing: [angle('here')],
  says,
});
export const fromOtherHand = { settings: { normal: 'other-hand' } } as const;
export const deformity = [
  ['here', 'normal'],
  ['here', 'deformity'],
] as const;

/** A sentence of what to do in place of each reading that must be missing, and nothing compared. */
export function expectSentence({ records, missing, says, ...more }: Wrong): void {
  const document = caseOf(injury(), settings(more.settings), ...records);
  const { readings, comparisons } = assess(document, SHIPPED_LIMIT_SETS);
  for (const [filmId, quantity] of missing) {
    const found = readings.filter((one) => one.filmId === filmId && one.quantity === quantity);
    expect(found, `${filmId}/${quantity}`).toHaveLength(1);
    const [reading] = found;
    if (reading?.state !== 'missing') throw new Error(`${filmId}/${quantity} is ${reading?.value}`);
    expect(reading.lacks).toMatch(says);
    // A whole sentence with what to do.
    expect(reading.lacks).toMatch(/^\p{Lu}.*[:,(].*\.$/u);
    expect(comparisons.map(({ readingId }) => readingId)).not.toContain(reading.id);
  }
}
