import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { type MarkRecord, type MarkShape, recordId } from '../../../src/case/document.ts';
import { markedFilms } from '../../../src/case/film-marks.ts';
import { pointsOf, shapeOf } from '../../../src/case/shape-points.ts';
import { filmPoint } from '../../../src/geometry/units.ts';
import { related } from '../../../src/record/dicom/content.ts';
import type { Dataset } from '../../../src/record/dicom/dicom-write.ts';
import { gspsDataset } from '../../../src/record/dicom/gsps.ts';
import { readBack } from '../../../src/record/dicom/read-back.ts';
import { secondaryCaptureDataset } from '../../../src/record/dicom/sc.ts';
import { srDataset } from '../../../src/record/dicom/sr.ts';
import { placedMarks } from '../../../src/record/dicom/sr-marks.ts';
import { caseOf, failed, mark, succeeded } from '../../case/samples.ts';
import {
  assessed,
  INSTANCE_UIDS,
  openSample,
  reportInput,
  sampleCase,
  sampleSources,
  sourceBytes,
  sourceOf,
  writingFacts,
} from '../sample.ts';
import { written } from './checked.ts';

const srOf = (document = sampleCase()): Dataset => succeeded(srDataset(reportInput(document)));

let opened: Awaited<ReturnType<typeof openSample>>;
beforeAll(async () => {
  opened = await openSample();
});

const gspsOf = (document = sampleCase()): Dataset =>
  succeeded(
    gspsDataset({
      ...writingFacts(),
      document,
      assessment: assessed(document),
      filmId: recordId('film-1'),
      film: opened,
      source: sourceOf(sourceBytes('film-1')),
      shownAs: {
        light: { shown: { kind: 'full-range' }, negative: false },
        turnDegrees: 0,
        mirrored: false,
      },
    }),
  );

/** Coordinates as VR FL keeps them. */
const single = (shape: MarkShape): MarkShape =>
  shapeOf(
    shape.construction,
    pointsOf(shape).map(({ column, row }) => filmPoint(Math.fround(column), Math.fround(row))),
  );

const keptOf = (marks: readonly MarkRecord[]) =>
  marks.map(({ filmId, role, shape, provenance, tracing }) => ({
    sopInstanceUid: INSTANCE_UIDS[filmId as keyof typeof INSTANCE_UIDS],
    frame: null,
    role,
    shape: single(shape),
    provenance,
    ...(tracing === undefined ? {} : { tracing }),
  }));

const marksOf = (document = sampleCase()) =>
  markedFilms(document).flatMap(({ marks }) => Object.values(marks));

describe('readBack', () => {
  it('gives back every mark of a report', () => {
    expect(succeeded(readBack(written(srOf())))).toEqual(keptOf(marksOf()));
  });

  it('gives back the marks of the film of a presentation state', () => {
    const onFilm = marksOf().filter(({ filmId }) => filmId === 'film-1');
    expect(succeeded(readBack(written(gspsOf())))).toEqual(keptOf(onFilm));
  });

  it('gives back what a tracer said of its axis, and drops the claim where it is not kept', () => {
    const tracing = { directionUncertaintyDegrees: 1.25, basis: 'calibrated on 400 invented films' };
    const axis = sampleCase().records[recordId('film-1/proximal-axis')] as MarkRecord;
    const document = caseOf(...Object.values(sampleCase().records), {
      ...axis,
      provenance: 'traced' as const,
      tracing,
    });
    const fromReport = succeeded(readBack(written(srOf(document))));
    expect(fromReport[0]).toMatchObject({ role: 'proximal-axis', provenance: 'traced', tracing });
    // A presentation state has no place for it, so the restored mark must not count as traced.
    const [fromPresentation] = succeeded(readBack(written(gspsOf(document))));
    expect(fromPresentation).toMatchObject({ provenance: 'traced-and-corrected' });
    expect(fromPresentation).not.toHaveProperty('tracing');
  });

  it('gives back any shape at any place, to the precision of VR FL', () => {
    const coordinate = fc.double({ min: 0, max: 4000, noNaN: true });
    const point = fc.tuple(coordinate, coordinate).map(([column, row]) => filmPoint(column, row));
    const levels = fc.array(fc.record({ one: point, other: point }), { minLength: 2, maxLength: 5 });
    const shapes = fc.oneof(
      fc.record({ construction: fc.constantFrom('canal' as const, 'cortex-pair' as const), levels }),
      fc.record({
        construction: fc.constant('dorsal-cortex' as const),
        points: fc.array(point, { minLength: 2, maxLength: 6 }),
      }),
      fc.record({ construction: fc.constant('free' as const), from: point, to: point }),
      fc.record({
        construction: fc.constant('head' as const),
        rim: fc.array(point, { minLength: 3, maxLength: 7 }),
        brokenEnd: point,
      }),
    );
    const report = srOf();
    const on = sampleSources().get(recordId('film-2'))!;
    fc.assert(
      fc.property(shapes, (shape) => {
        const axis = mark('film-2/distal-axis', 'film-2', 'distal-axis', shape);
        const kept = related('CONTAINS', placedMarks([{ mark: axis, on }]));
        const restored = succeeded(readBack(written({ ...report, ContentSequence: [kept] })));
        expect(restored).toEqual(keptOf([axis]));
      }),
      { numRuns: 60 },
    );
  });

  it('refuses a file that is not DICOM, a film, and a report of another program', () => {
    expect(failed(readBack(new TextEncoder().encode('{"format":"raybend-case"}')))).toEqual({
      kind: 'not-dicom',
    });
    expect(failed(readBack(sourceBytes('film-1')))).toEqual({
      kind: 'other-object',
      sopClassUid: '1.2.840.10008.5.1.4.1.1.1',
    });
    const capture = secondaryCaptureDataset({
      ...writingFacts(),
      picture: { columns: 2, rows: 2, samplesPerPixel: 3, bytes: new Uint8Array(12) },
      source: sourceOf(sourceBytes('film-1')),
      laterality: 'R',
    });
    expect(failed(readBack(written(succeeded(capture)))).kind).toBe('other-object');
    const foreign = { ...srOf(), ContentSequence: [], Manufacturer: 'Invented Works' };
    expect(failed(readBack(written(foreign)))).toEqual({ kind: 'foreign', manufacturer: 'Invented Works' });
    const blank = { ...gspsOf(), GraphicAnnotationSequence: [] };
    expect(failed(readBack(written(blank))).kind).toBe('foreign');
  });

  it.each([
    ['an unknown role', /DISTAL-AXIS\/HEAD\/PLACED/, 'NAIL-AXIS/HEAD/PLACED', 'role'],
    ['an unknown construction', /DISTAL-AXIS\/HEAD\/PLACED/, 'DISTAL-AXIS/GUESS/PLACED', 'construction'],
    ['a construction that does not suit', /DISTAL-AXIS\/HEAD/, 'DISTAL-AXIS/POINT', 'makes no'],
    ['no provenance', /DISTAL-AXIS\/HEAD\/PLACED/, 'DISTAL-AXIS/HEAD', 'came about'],
    ['too few points', /DORSAL-SIDE\/POINT/, 'LENGTH/SEGMENT', 'needs 2'],
  ])('refuses %s by the number of the mark', (_, from, to, problem) => {
    const dataset = gspsOf();
    const groups = dataset.GraphicGroupSequence as readonly Dataset[];
    const changed = {
      ...dataset,
      GraphicGroupSequence: groups.map((group) => ({
        ...group,
        GraphicGroupLabel: String(group.GraphicGroupLabel).replace(from, to),
      })),
    };
    const error = failed(readBack(written(changed)));
    expect(error).toMatchObject({ kind: 'mark-unreadable' });
    expect(JSON.stringify(error)).toContain(problem);
  });

  it('never throws for a damaged file', () => {
    const bytes = written(srOf());
    const harm = fc.record({
      length: fc.integer({ min: 0, max: bytes.length }),
      changes: fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { maxLength: 6 }),
    });
    fc.assert(
      fc.property(harm, ({ length, changes }) => {
        const harmed = bytes.slice();
        for (const [at, value] of changes) harmed[at] = value;
        const result = readBack(harmed.subarray(0, length));
        expect(typeof result.ok).toBe('boolean');
      }),
      { numRuns: 150 },
    );
  });
});

it('the sample has marks of every construction but two, which the property makes', () => {
  expect(new Set(marksOf().map(({ shape }) => shape.construction))).toEqual(
    new Set(['canal', 'head', 'point', 'segment', 'free']),
  );
});
