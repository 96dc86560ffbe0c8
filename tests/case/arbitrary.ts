import fc from 'fast-check';
import { removal } from '../../src/case/apply.ts';
import {
  type CaseRecord,
  type FilmRecord,
  type MarkRecord,
  type MarkRole,
  type MarkShape,
  MOMENTS,
  recordId,
} from '../../src/case/document.ts';
import { type Action, act, type CaseState, freshState } from '../../src/case/history.ts';
import { ROLES } from '../../src/case/roles.ts';
import { type FilmPoint, filmPoint } from '../../src/geometry/units.ts';
import { PATTERNS, RAYS, REGIONS, VIEWS } from '../../src/tolerance/anatomy.ts';
import { AT, caseOf, film, injury, putting } from './samples.ts';

/** Arbitrary records and edits for the properties of `case`. */

export const arbitraryPoint: fc.Arbitrary<FilmPoint> = fc
  .tuple(
    fc.double({ min: 0, max: 4000, noNaN: true, noDefaultInfinity: true }),
    fc.double({ min: 0, max: 4000, noNaN: true, noDefaultInfinity: true }),
  )
  .map(([column, row]) => filmPoint(column, row));

export const arbitraryShape: fc.Arbitrary<MarkShape> = fc.oneof(
  fc.record({ construction: fc.constant('free' as const), from: arbitraryPoint, to: arbitraryPoint }),
  fc.record({
    construction: fc.constantFrom('cortex-pair' as const, 'canal' as const),
    levels: fc.array(fc.record({ one: arbitraryPoint, other: arbitraryPoint }), {
      minLength: 2,
      maxLength: 5,
    }),
  }),
  fc.record({
    construction: fc.constant('dorsal-cortex' as const),
    points: fc.array(arbitraryPoint, { minLength: 2, maxLength: 5 }),
  }),
  fc.record({
    construction: fc.constant('head' as const),
    rim: fc.array(arbitraryPoint, { minLength: 3, maxLength: 6 }),
    brokenEnd: arbitraryPoint,
  }),
  fc.record({
    construction: fc.constant('circle' as const),
    rim: fc.array(arbitraryPoint, { minLength: 3, maxLength: 5 }),
  }),
  fc.record({ construction: fc.constant('point' as const), at: arbitraryPoint }),
  fc.record({ construction: fc.constant('segment' as const), from: arbitraryPoint, to: arbitraryPoint }),
);

const FILM_IDS = ['film-a', 'film-b'] as const;
const MARK_IDS = ['mark-1', 'mark-2', 'mark-3'] as const;

const arbitraryFilm: fc.Arbitrary<FilmRecord> = fc
  .record({
    id: fc.constantFrom(...FILM_IDS),
    view: fc.constantFrom(...VIEWS, null),
    day: fc.option(fc.integer({ min: 0, max: 400 })),
    hand: fc.constantFrom('injured' as const, 'other' as const),
    mirrored: fc.boolean(),
    moment: fc.constantFrom(...MOMENTS, null),
    place: fc.record({
      frame: fc.nat({ max: 40 }),
      part: fc.option(
        fc.oneof(
          fc.record({
            kind: fc.constant('rectangle' as const),
            column: fc.nat(),
            row: fc.nat(),
            columns: fc.integer({ min: 1 }),
            rows: fc.integer({ min: 1 }),
          }),
          fc.record({
            kind: fc.constant('corners' as const),
            corners: fc.tuple(arbitraryPoint, arbitraryPoint, arbitraryPoint, arbitraryPoint),
            columns: fc.integer({ min: 1 }),
            rows: fc.integer({ min: 1 }),
          }),
        ),
      ),
    }),
    slant: fc.record({ upToDegrees: fc.option(fc.integer({ min: 0, max: 90 })) }),
  })
  .map(({ id, ...rest }) => film(id, rest));

const arbitraryMark: fc.Arbitrary<MarkRecord> = fc.record({
  kind: fc.constant('mark' as const),
  id: fc.constantFrom(...MARK_IDS).map(recordId),
  filmId: fc.constantFrom(...FILM_IDS).map(recordId),
  role: fc.constantFrom(...(Object.keys(ROLES) as MarkRole[])),
  shape: arbitraryShape,
  provenance: fc.constantFrom('placed' as const, 'traced' as const, 'traced-and-corrected' as const),
});

const arbitraryInjury = fc
  .record({
    label: fc.string(),
    hand: fc.constantFrom('left' as const, 'right' as const, null),
    ray: fc.constantFrom(...RAYS, null),
    region: fc.constantFrom(...REGIONS, null),
    pattern: fc.constantFrom(...PATTERNS, null),
    ageGroup: fc.constantFrom('adult' as const, 'child' as const, null),
    date: fc.constantFrom('2026-03-01', null),
  })
  .map((fields) => injury(fields));

const arbitraryExamination = fc
  .dictionary(fc.stringMatching(/^[a-z-]{1,12}$/), fc.constantFrom('yes' as const, 'no' as const))
  .map((answers) => ({ kind: 'examination' as const, id: recordId('examination'), answers }));

const arbitrarySettings = fc.record({
  kind: fc.constant('settings' as const),
  id: fc.constant(recordId('settings')),
  limitSetIds: fc.array(fc.stringMatching(/^[a-z-]{1,12}$/), { maxLength: 3 }),
  normal: fc.constantFrom('best' as const, 'other-hand' as const, 'published' as const, 'zero' as const),
  placingErrorMm: fc.option(fc.double({ min: 0.05, max: 3, noNaN: true })),
  placingErrorDegreesOfFreedom: fc.option(fc.integer({ min: 1, max: 60 })),
  milestones: fc.option(
    fc.array(
      fc.record({
        id: fc.stringMatching(/^[a-z-]{1,12}$/),
        name: fc.string({ minLength: 1 }),
        since: fc.constantFrom('injury' as const, 'reduction' as const),
        fromDay: fc.integer({ min: 0, max: 20 }),
        toDay: fc.integer({ min: 20, max: 90 }),
        source: fc.string(),
      }),
      { maxLength: 3 },
    ),
  ),
});

export const arbitraryRecord: fc.Arbitrary<CaseRecord> = fc.oneof(
  arbitraryFilm,
  arbitraryMark,
  arbitraryInjury,
  arbitraryExamination,
  arbitrarySettings,
);

/** What someone does at the bench, at random: most edits fit the case, some do not and must be refused. */
export type Edit =
  | { readonly do: 'put'; readonly record: CaseRecord }
  | { readonly do: 'remove'; readonly id: string }
  | { readonly do: 'undo' }
  | { readonly do: 'redo' };

export const arbitraryEdits: fc.Arbitrary<readonly Edit[]> = fc.array(
  fc.oneof(
    { weight: 5, arbitrary: arbitraryRecord.map((record) => ({ do: 'put' as const, record })) },
    {
      weight: 1,
      arbitrary: fc
        .constantFrom(...FILM_IDS, ...MARK_IDS, 'injury')
        .map((id) => ({ do: 'remove' as const, id })),
    },
    { weight: 1, arbitrary: fc.constant({ do: 'undo' as const }) },
    { weight: 1, arbitrary: fc.constant({ do: 'redo' as const }) },
  ),
  { maxLength: 30 },
);

export const actionOf = (edit: Edit, state: CaseState): Action => {
  switch (edit.do) {
    case 'put':
      return { kind: 'do', transaction: putting(state.document, edit.record) };
    case 'remove':
      return { kind: 'do', transaction: removal(state.document, 'remove', AT, recordId(edit.id)) };
    default:
      return { kind: edit.do, at: AT };
  }
};

/** The state after what can be done of the edits, starting from one film; what is refused is left out. */
export const stateAfter = (edits: readonly Edit[]): CaseState =>
  edits.reduce(
    (state, edit) => {
      const next = act(state, actionOf(edit, state));
      return next.ok ? next.value : state;
    },
    freshState(caseOf(film('film-a'))),
  );
