import { z } from 'zod';
import { PATTERNS, RAYS, REGIONS, VIEWS } from '../tolerance/anatomy.ts';
import {
  type CaseDocument,
  type CaseId,
  type CaseRecord,
  EXAMINATION_ID,
  INJURY_ID,
  type MarkRole,
  MOMENTS,
  type RecordId,
  SETTINGS_ID,
  SUBJECTS,
  type Transaction,
} from './document.ts';
import type { History } from './history.ts';
import { ROLES } from './roles.ts';
import { point, shape } from './shape-schema.ts';

/*
 * What a case looks like as data. Objects are loose: a field that this version does not know is kept, so that
 * a file that went through an older Raybend loses nothing.
 */

const id = z.string().min(1, 'is empty').max(200, 'is longer than 200 characters');
const recordIdSchema = id as unknown as z.ZodType<RecordId>;
const caseIdSchema = id as unknown as z.ZodType<CaseId>;

const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'is not a SHA-256 in lower-case hexadecimal');

const share = z.number().min(0).max(1);
const spacing = z
  .discriminatedUnion('kind', [
    z.looseObject({
      kind: z.literal('millimetres'),
      rowSpacingMm: z.number().positive(),
      columnSpacingMm: z.number().positive(),
      plane: z.enum(['detector', 'patient', 'film', 'not-known']),
      origin: z.enum([
        'ImagerPixelSpacing',
        'PixelSpacing',
        'NominalScannedPixelSpacing',
        'object-of-known-size',
        'invented-film',
      ]),
      calibrationType: z.enum(['GEOMETRY', 'FIDUCIAL']).nullable(),
      calibrationDescription: z.string().nullable(),
      estimatedMagnification: z.number().min(1).nullable(),
      relativeStandardUncertainty: share,
      conflicts: z.array(z.string()),
    }),
    z.looseObject({
      kind: z.literal('ratio'),
      rowToColumn: z.number().positive(),
      origin: z.enum(['PixelAspectRatio', 'assumed-square']),
      conflicts: z.array(z.string()),
    }),
  ])
  .meta({ id: 'Spacing', description: 'What is known of the scale of a film.' });

const wholeFrom = (least: number) => z.int().min(least);
const filmPart = z
  .discriminatedUnion('kind', [
    z.looseObject({
      kind: z.literal('rectangle'),
      column: wholeFrom(0),
      row: wholeFrom(0),
      columns: wholeFrom(1),
      rows: wholeFrom(1),
    }),
    z.looseObject({
      kind: z.literal('corners'),
      corners: z.tuple([point, point, point, point]),
      columns: wholeFrom(1),
      rows: wholeFrom(1),
    }),
  ])
  .meta({
    id: 'FilmPart',
    description:
      'A rectangle of the picture, or four corners (top left, then clockwise) of a sheet that was straightened. In pixels of the whole picture.',
  });

const knownLength = {
  sizeMm: z.number().positive(),
  sizeRelativeUncertainty: share,
  typed: z.string(),
};

const filmScale = z
  .discriminatedUnion('from', [
    z.looseObject({
      from: z.literal('object'),
      inFile: spacing,
      ...knownLength,
      plane: z.enum(['detector', 'patient', 'film', 'not-known']),
      further: z.looseObject(knownLength).exactOptional(),
    }),
    z.looseObject({ from: z.literal('magnification'), inFile: spacing, factor: z.number().min(1) }),
  ])
  .meta({ id: 'FilmScale', description: 'How the user set the scale, and what the file said before.' });

const injury = z
  .looseObject({
    kind: z.literal('injury'),
    id: recordIdSchema,
    label: z.string(),
    hand: z.enum(['left', 'right']).nullable(),
    ray: z.enum(RAYS).nullable(),
    region: z.enum(REGIONS).nullable(),
    pattern: z.enum(PATTERNS).nullable(),
    ageGroup: z.enum(['adult', 'child']).nullable(),
    date: z.iso.date('is not a calendar day in ISO 8601').nullable(),
  })
  .meta({ id: 'Injury', description: 'One in each case, under the id "injury". null: not said.' });

const examination = z
  .looseObject({
    kind: z.literal('examination'),
    id: recordIdSchema,
    answers: z.record(z.string(), z.enum(['yes', 'no'])),
  })
  .meta({
    id: 'Examination',
    description:
      'One in each case, under the id "examination". An answer that is absent is a check not made.',
  });

const milestone = z
  .looseObject({
    id,
    name: z.string().min(1, 'is empty').max(200, 'is longer than 200 characters'),
    since: z.enum(['injury', 'reduction']),
    fromDay: z.int().min(0),
    toDay: z.int().min(0),
    source: z.string(),
  })
  .refine(({ fromDay, toDay }) => fromDay <= toDay, { error: 'ends before it begins', path: ['toDay'] })
  .meta({
    id: 'Milestone',
    description: 'What is usually expected, in whole days since the injury or the reduction.',
  });

const settings = z
  .looseObject({
    kind: z.literal('settings'),
    id: recordIdSchema,
    limitSetIds: z.array(id),
    normal: z.enum(['best', 'other-hand', 'published', 'zero']),
    placingErrorMm: z.number().positive().max(20).nullable(),
    placingErrorDegreesOfFreedom: z.number().positive().nullable(),
    milestones: z.array(milestone).nullable(),
  })
  .meta({ id: 'Settings', description: 'One in each case, under the id "settings".' });

const film = z
  .looseObject({
    kind: z.literal('film'),
    id: recordIdSchema,
    sha256,
    format: z.enum(['dicom', 'png', 'jpeg']),
    columns: z.int().positive(),
    rows: z.int().positive(),
    shows: z.enum(SUBJECTS),
    hand: z.enum(['injured', 'other']),
    ray: z.enum(RAYS).exactOptional(),
    view: z.enum(VIEWS).nullable(),
    viewFrom: z.enum(['file', 'user']).nullable(),
    turnDegrees: z.number().min(0).max(180).exactOptional(),
    day: z.int().nullable(),
    moment: z.enum(MOMENTS).nullable(),
    spacing,
    invented: z.boolean(),
    lossy: z.boolean().nullable(),
    burnedIn: z.boolean().nullable(),
    stated: z.looseObject({
      viewPosition: z.string().nullable(),
      laterality: z.enum(['L', 'R', 'B', 'U']).nullable(),
    }),
    mirrored: z.boolean(),
    place: z.looseObject({ frame: wholeFrom(0), part: filmPart.nullable() }).exactOptional(),
    scale: filmScale.exactOptional(),
    slant: z.looseObject({ upToDegrees: z.number().min(0).max(180).nullable() }).exactOptional(),
  })
  .meta({
    id: 'Film',
    description: 'A film by the SHA-256 of its file; the picture itself is kept elsewhere.',
  });

const mark = z
  .looseObject({
    kind: z.literal('mark'),
    id: recordIdSchema,
    filmId: recordIdSchema,
    role: z.enum(Object.keys(ROLES) as [MarkRole, ...MarkRole[]]),
    shape,
    provenance: z.enum(['placed', 'traced', 'traced-and-corrected']),
    tracing: z
      .looseObject({ directionUncertaintyDegrees: z.number().positive().max(90), basis: z.string() })
      .exactOptional(),
  })
  .meta({ id: 'Mark', description: 'What was placed on a film, and what for.' });

const caseRecordSchema: z.ZodType<CaseRecord> = z
  .discriminatedUnion('kind', [injury, examination, settings, film, mark])
  .meta({ id: 'Record' });

const FIXED = [
  [INJURY_ID, 'injury'],
  [EXAMINATION_ID, 'examination'],
  [SETTINGS_ID, 'settings'],
] as const;

/** A whole case: every record under its own id, the three fixed ones there, every mark on a film that is there. */
export const caseDocumentSchema: z.ZodType<CaseDocument> = z
  .looseObject({
    id: caseIdSchema,
    records: z.record(z.string(), caseRecordSchema) as unknown as z.ZodType<CaseDocument['records']>,
  })
  .superRefine(({ records }, context) => {
    const report = (key: string, message: string) =>
      context.addIssue({ code: 'custom', path: ['records', key], message });
    for (const [key, kind] of FIXED) {
      if (records[key]?.kind !== kind) report(key, `is missing, or is no ${kind} record`);
    }
    for (const [key, record] of Object.entries(records)) {
      if (record.id !== key) report(key, `stands under another id than its own, ${record.id}`);
      if (record.kind === 'mark' && records[record.filmId]?.kind !== 'film') {
        report(key, `is a mark on the film ${record.filmId}, which the case does not hold`);
      }
    }
  });

const step = z.looseObject({
  id: recordIdSchema,
  before: caseRecordSchema.nullable(),
  after: caseRecordSchema.nullable(),
});

const transactionSchema: z.ZodType<Transaction> = z
  .looseObject({
    label: z.string(),
    at: z.iso.datetime({ offset: true, error: 'is not a time in ISO 8601' }),
    steps: z.array(step),
  })
  .meta({
    id: 'Transaction',
    description: 'One user action: whole records before and after, null where there is none.',
  });

const historySchema: z.ZodType<History> = z
  .looseObject({ transactions: z.array(transactionSchema), position: z.int().min(0) })
  .refine(({ transactions, position }) => position <= transactions.length, {
    error: 'lies beyond the last transaction',
    path: ['position'],
  });

/** A case file of today's version; `case-file.ts` reads and writes it. */
export const caseFileSchema = z.looseObject({
  format: z.literal('raybend-case'),
  version: z.literal(3),
  case: caseDocumentSchema,
  history: historySchema.optional(),
  /** Bytes of the films, so that the file stands alone; without them the films are only named. */
  films: z.array(z.looseObject({ sha256, bytesBase64: z.base64() })).optional(),
});
