import type { Assessment } from '../../case/assessment.ts';
import { axesOnFilm, type DrawnAxis } from '../../case/axes.ts';
import type { CaseDocument, FilmRecord, MarkRecord, RecordId } from '../../case/document.ts';
import { markedFilm } from '../../case/film-marks.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { readingInWords } from '../../case/format.ts';
import { pointsOf } from '../../case/shape-points.ts';
import type { Film, LookupTable } from '../../film/film.ts';
import { isInverted, type Light, modalityRange } from '../../film/grey-scale.ts';
import { failure, type Result, success } from '../../geometry/result.ts';
import type { FilmPoint } from '../../geometry/units.ts';
import { withPlainSpaces } from '../words/sentence.ts';
import { type Dataset, decimalString } from './dicom-write.ts';
import { CONTROL_POINT_LAYER, groupLabel } from './gsps-marks.ts';
import { commonModules, lateralityOf, type WritingFacts } from './modules.ts';
import type { SourceFilm } from './source.ts';

const GREYSCALE_SOFTCOPY = {
  sopClassUid: '1.2.840.10008.5.1.4.1.1.11.1',
  modality: 'PR',
  seriesDescription: 'Raybend presentation',
  seriesNumber: 9702,
} as const;

/** How the film lies on the plate. */
export interface ShownAs {
  readonly light: Light;
  /** Clockwise as displayed, after mirroring. */
  readonly turnDegrees: number;
  readonly mirrored: boolean;
}

export interface GspsInput extends WritingFacts {
  readonly document: CaseDocument;
  readonly assessment: Assessment;
  readonly filmId: RecordId;
  readonly film: Film;
  readonly source: SourceFilm;
  readonly shownAs: ShownAs;
}

export type GspsFailure =
  | { readonly kind: 'no-such-film' }
  /** A presentation state turns by quarters only (PS3.3 C.10.6). */
  | { readonly kind: 'turn-not-quarter'; readonly turnDegrees: number }
  /** A greyscale presentation state refers to greyscale pictures only (PS3.4 N.2). */
  | { readonly kind: 'colour-film'; readonly photometric: string }
  | { readonly kind: 'nothing-placed' };

/**
 * A Greyscale Softcopy Presentation State (PS3.3 A.33.1) with the axes and their reading drawn on one film, the
 * window, and how it is turned; and every control point in a layer of its own, so that the marks can be put
 * back.
 */
export function gspsDataset(input: GspsInput): Result<Dataset, GspsFailure> {
  const { document, filmId, film, source, shownAs, writtenAt } = input;
  const marked = markedFilm(document, filmId);
  if (marked === null) return failure({ kind: 'no-such-film' });
  if (!source.photometric.startsWith('MONOCHROME')) {
    return failure({ kind: 'colour-film', photometric: source.photometric });
  }
  const spatial = spatialTransformation(shownAs);
  if (spatial === null) return failure({ kind: 'turn-not-quarter', turnDegrees: shownAs.turnDegrees });
  const marks = Object.values(marked.marks);
  if (marks.length === 0) return failure({ kind: 'nothing-placed' });
  const on: readonly Dataset[] = [
    {
      ReferencedSOPClassUID: source.sopClassUid,
      ReferencedSOPInstanceUID: source.sopInstanceUid,
      ...(source.frame === null ? {} : { ReferencedFrameNumber: String(source.frame) }),
    },
  ];
  return success({
    ...commonModules(source, GREYSCALE_SOFTCOPY, input),
    Laterality: lateralityOf(injuryOf(document), marked.film.hand),
    ContentLabel: 'RAYBEND',
    ContentDescription: 'Axes of a metacarpal and the angle between them',
    ContentCreatorName: '',
    PresentationCreationDate: writtenAt.date,
    PresentationCreationTime: writtenAt.time,
    ReferencedSeriesSequence: [{ SeriesInstanceUID: source.seriesInstanceUid, ReferencedImageSequence: on }],
    DisplayedAreaSelectionSequence: [displayedArea(marked.film, spatial, on)],
    ...spatial,
    ...modality(film),
    SoftcopyVOILUTSequence: [voi(film, shownAs.light)],
    PresentationLUTShape: isInverted(film.grey, shownAs.light) ? 'INVERSE' : 'IDENTITY',
    ...graphics(input, marks, on),
  });
}

type SpatialTransformation = {
  readonly ImageHorizontalFlip: 'Y' | 'N';
  readonly ImageRotation: number;
};

/**
 * PS3.3 C.10.6: Image Rotation is clockwise and comes before the flip, where here mirroring comes before the
 * turn; turning a mirrored film clockwise is turning the film the other way and mirroring it then. Null where
 * the turn is no multiple of 90°.
 */
function spatialTransformation({ turnDegrees, mirrored }: ShownAs): SpatialTransformation | null {
  const turn = ((turnDegrees % 360) + 360) % 360;
  if (turn % 90 !== 0) return null;
  return {
    ImageHorizontalFlip: mirrored ? 'Y' : 'N',
    ImageRotation: mirrored ? (360 - turn) % 360 : turn,
  };
}

/**
 * The whole film: the pixels that are shown at the top left and the bottom right once the film is turned and
 * mirrored, counted from 1 (PS3.3 C.10.4).
 */
function displayedArea(
  { columns, rows, spacing }: FilmRecord,
  { ImageRotation, ImageHorizontalFlip }: SpatialTransformation,
  on: readonly Dataset[],
): Dataset {
  const shape =
    spacing.kind === 'millimetres'
      ? {
          PresentationPixelSpacing: [spacing.rowSpacingMm, spacing.columnSpacingMm].map(decimalString),
        }
      : // Vertical to horizontal size as a pair of integers.
        { PresentationPixelAspectRatio: [String(Math.round(1000 * spacing.rowToColumn)), '1000'] };
  // Corners clockwise from the top left; a turn clockwise brings earlier ones to the top left.
  const corners = [
    [1, 1],
    [columns, 1],
    [columns, rows],
    [1, rows],
  ] as const;
  const cornerAt = (place: number) => corners[(place + 4 - ImageRotation / 90) % 4] as readonly number[];
  const flipped = ImageHorizontalFlip === 'Y';
  return {
    ReferencedImageSequence: on,
    DisplayedAreaTopLeftHandCorner: cornerAt(flipped ? 1 : 0),
    DisplayedAreaBottomRightHandCorner: cornerAt(flipped ? 3 : 2),
    PresentationSizeMode: 'SCALE TO FIT',
    ...shape,
  };
}

const table = ({ entries, firstMapped, bitsPerEntry, explanation }: LookupTable): Dataset => ({
  // 65536 entries are written as 0 (PS3.3 C.11.1.1).
  LUTDescriptor: [entries.length % 65536, firstMapped & 0xffff, bitsPerEntry],
  ...(explanation === null ? {} : { LUTExplanation: explanation }),
  LUTData: entries.slice().buffer,
});

/** Entries are kept as words of 16 bits, which a modality table's own values fit whatever its bits (C.11.1.1). */
function modality({ grey }: Film): Dataset {
  return grey.modality.kind === 'table'
    ? {
        ModalityLUTSequence: [
          { ...table({ ...grey.modality.table, bitsPerEntry: 16 }), ModalityLUTType: 'US' },
        ],
      }
    : {
        RescaleIntercept: decimalString(grey.modality.intercept),
        RescaleSlope: decimalString(grey.modality.slope),
        RescaleType: 'US',
      };
}

/** A table of 8 bits would be kept in bytes (C.11.2.1.1): its grey is spread over 16 bits, where 257 · 255 is white. */
function inWords(table: LookupTable): LookupTable {
  if (table.bitsPerEntry > 8) return table;
  const spread = 65535 / (2 ** table.bitsPerEntry - 1);
  return { ...table, bitsPerEntry: 16, entries: table.entries.map((entry) => Math.round(entry * spread)) };
}

function voi(film: Film, { shown }: Light): Dataset {
  if (shown.kind === 'voi-table') {
    const found = film.grey.voiTables[shown.index];
    if (found === undefined) throw new RangeError(`the film has no VOI table ${shown.index}`);
    return { VOILUTSequence: [table(inWords(found))] };
  }
  if (shown.kind === 'window') return window(shown.center, shown.width, shown.function);
  const { least, greatest } = modalityRange(film.grey.modality, film.storedMin, film.storedMax);
  return window((least + greatest) / 2, Math.max(greatest - least, 1), 'LINEAR_EXACT');
}

const window = (center: number, width: number, kind: string): Dataset => ({
  WindowCenter: decimalString(center),
  WindowWidth: decimalString(width),
  VOILUTFunction: kind,
});

function graphics(
  { document, assessment, filmId }: GspsInput,
  marks: readonly MarkRecord[],
  on: readonly Dataset[],
): Dataset {
  const { proximal, distal, angle } = axesOnFilm(document, filmId);
  const drawn: readonly DrawnAxis[] = [proximal, distal].flatMap((axis) => (axis?.ok ? [axis.value] : []));
  const lines = [
    ...drawn.map(({ from, to }) => graphic('POLYLINE', [from, to])),
    ...(angle === null ? [] : [graphic('POLYLINE', angle.arc)]),
  ];
  const reading = assessment.readings.find(
    (one) => one.filmId === filmId && one.quantity === 'angulation' && one.state === 'known',
  );
  const anchor = angle?.crossing ?? drawn.at(-1)?.to ?? null;
  const label =
    reading?.state === 'known' && anchor !== null
      ? [textAt(withPlainSpaces(readingInWords(reading)), anchor)]
      : [];
  const readable = lines.length + label.length > 0;
  return {
    ...groups(marks),
    GraphicAnnotationSequence: [
      ...(readable
        ? [
            {
              ReferencedImageSequence: on,
              GraphicLayer: READING_LAYER,
              ...(label.length === 0 ? {} : { TextObjectSequence: label }),
              ...(lines.length === 0 ? {} : { GraphicObjectSequence: lines }),
            },
          ]
        : []),
      {
        ReferencedImageSequence: on,
        GraphicLayer: CONTROL_POINT_LAYER,
        GraphicObjectSequence: marks.flatMap((mark, index) =>
          pointsOf(mark.shape).map((point) => ({
            ...graphic('POINT', [point]),
            GraphicGroupID: index + 1,
          })),
        ),
      },
    ],
    GraphicLayerSequence: (readable ? [READING_LAYER, CONTROL_POINT_LAYER] : [CONTROL_POINT_LAYER]).map(
      (name, index) => ({ GraphicLayer: name, GraphicLayerOrder: String(index + 1) }),
    ),
  };
}

const READING_LAYER = 'RAYBEND_READING';

/** (0070,0234): the control points of a mark are one group, whose label says what the mark is. */
const groups = (marks: readonly MarkRecord[]): Dataset => ({
  GraphicGroupSequence: marks.map((mark, index) => ({
    GraphicGroupID: index + 1,
    GraphicGroupLabel: groupLabel(mark),
  })),
});

/** In pixels, with the origin at the top left corner of the picture as in a report (PS3.3 C.10.5.1.2). */
const graphic = (type: 'POINT' | 'POLYLINE', points: readonly FilmPoint[]): Dataset => ({
  GraphicAnnotationUnits: 'PIXEL',
  GraphicDimensions: 2,
  NumberOfGraphicPoints: points.length,
  GraphicData: points.flatMap(({ column, row }) => [column, row]),
  GraphicType: type,
  ...(type === 'POINT' ? {} : { GraphicFilled: 'N' }),
});

const textAt = (words: string, { column, row }: FilmPoint): Dataset => ({
  AnchorPointAnnotationUnits: 'PIXEL',
  UnformattedTextValue: words,
  AnchorPoint: [column, row],
  AnchorPointVisibility: 'N',
});
