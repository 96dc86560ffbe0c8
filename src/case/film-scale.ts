import { type KnownSizeFailure, scaleFromObject } from '../geometry/known-size.ts';
import { magnificationRange } from '../geometry/length-scale.ts';
import { NOMINAL_PLACING_ERROR_MM } from '../geometry/placing.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import type { Spacing } from '../geometry/spacing.ts';
import type { CaseDocument, FilmRecord, FilmScale, MarkRecord, SettingsRecord } from './document.ts';
import { leastPlacingError } from './film-placing.ts';
import { settingsOf } from './fixed-records.ts';

type Millimetre = Extract<Spacing, { kind: 'millimetres' }>;
export type ObjectSize = Omit<Extract<FilmScale, { from: 'object' }>, 'inFile' | 'from'>;

export type ScaleFailure = KnownSizeFailure | { readonly kind: 'not-a-scale-object' };

/** What a film's file says of its scale, whatever the user set. */
export const spacingInFile = (film: FilmRecord): Spacing => film.scale?.inFile ?? film.spacing;

/** The scale as the file has it, and nothing set by the user. */
export function withoutScale({ scale, ...film }: FilmRecord): FilmRecord {
  return scale === undefined ? film : { ...film, spacing: scale.inFile };
}

const rowToColumn = (spacing: Spacing): number =>
  spacing.kind === 'ratio' ? spacing.rowToColumn : spacing.rowSpacingMm / spacing.columnSpacingMm;

/**
 * The film with the scale that an object of known size on it gives. The shape of the pixels stays as the file has
 * it; what the file says of millimetres is kept beside it and, where the two cannot both be right, said.
 *
 * Fails as `scaleFromObject` does, and with `not-a-scale-object` for a mark of another role.
 */
export function withObjectScale(
  film: FilmRecord,
  mark: MarkRecord,
  size: ObjectSize,
  settings: SettingsRecord,
): Result<FilmRecord, ScaleFailure> {
  const { shape } = mark;
  const object =
    shape.construction === 'circle'
      ? ({ kind: 'round', rim: shape.rim } as const)
      : shape.construction === 'segment'
        ? ({ kind: 'straight', from: shape.from, to: shape.to } as const)
        : null;
  if (mark.role !== 'scale-object' || object === null) return failure({ kind: 'not-a-scale-object' });
  const inFile = spacingInFile(film);
  const known = {
    size: size.sizeMm as Parameters<typeof scaleFromObject>[1]['size'],
    sizeRelativeUncertainty: size.sizeRelativeUncertainty,
    description: `object of ${size.typed}`,
    plane: size.plane,
  };
  const placed = (standardUncertainty: number) =>
    scaleFromObject(object, known, rowToColumn(inFile), {
      standardUncertainty,
      basis: { text: 'placing of the object', degreesOfFreedom: Number.POSITIVE_INFINITY },
    });
  const stated = settings.placingErrorMm ?? NOMINAL_PLACING_ERROR_MM;
  const first = placed(stated);
  if (!first.ok) return first;
  // The size of a pixel is known only now; no point is placed better than that allows.
  const scaled = placed(Math.max(stated, leastPlacingError({ ...film, spacing: first.value })));
  if (!scaled.ok) return scaled;
  const spacing = { ...scaled.value, conflicts: conflictsBetween(scaled.value, inFile) };
  return success({ ...film, spacing, scale: { from: 'object', inFile, ...size } });
}

/**
 * What the file says against the object's scale: a difference beyond what the magnification to reckon with and
 * twice the scale's own uncertainty explain.
 */
function conflictsBetween(byObject: Millimetre, inFile: Spacing): readonly string[] {
  if (inFile.kind === 'ratio') return inFile.conflicts;
  const range = magnificationRange(inFile) ?? { least: 1, most: 1 };
  const here = magnificationRange(byObject) ?? { least: 1, most: 1 };
  const ratio = inFile.columnSpacingMm / byObject.columnSpacingMm;
  const slack = 2 * byObject.relativeStandardUncertainty;
  const explained =
    ratio >= (range.least / here.most) * (1 - slack) && ratio <= (range.most / here.least) * (1 + slack);
  if (explained) return inFile.conflicts;
  const percent = Math.round(100 * Math.abs(ratio - 1));
  return [
    ...inFile.conflicts,
    `The file says ${inFile.columnSpacingMm.toFixed(3)} mm per column, ${percent} % ${ratio > 1 ? 'more' : 'less'} than the object of known size gives; the object is used.`,
  ];
}

/** A stated factor is taken to 0.01 either way, uniform: the half-width over √3 (JCGM 100:2008, 4.3.7). */
const FACTOR_STANDARD_UNCERTAINTY = 0.01 / Math.sqrt(3);

/**
 * The film with its spacing divided by the magnification that the file estimates, so that it holds at the bone.
 * Null where the file estimates none.
 */
export function withoutMagnification(film: FilmRecord): FilmRecord | null {
  const inFile = spacingInFile(film);
  if (inFile.kind === 'ratio' || inFile.estimatedMagnification === null) return null;
  const factor = inFile.estimatedMagnification;
  const spacing: Millimetre = {
    ...inFile,
    rowSpacingMm: inFile.rowSpacingMm / factor,
    columnSpacingMm: inFile.columnSpacingMm / factor,
    plane: 'patient',
    calibrationType: 'GEOMETRY',
    calibrationDescription: `divided by the estimated magnification of ${factor}`,
    estimatedMagnification: null,
    relativeStandardUncertainty: Math.hypot(
      inFile.relativeStandardUncertainty,
      FACTOR_STANDARD_UNCERTAINTY / factor,
    ),
  };
  return { ...film, spacing, scale: { from: 'magnification', inFile, factor } };
}

/**
 * The film that has to change with a mark, or null when none does: a scale from an object follows the object. When
 * the object no longer gives a scale, the file's own comes back.
 */
export function filmFollowing(document: CaseDocument, mark: MarkRecord, removed: boolean): FilmRecord | null {
  const film = document.records[mark.filmId];
  if (film?.kind !== 'film' || mark.role !== 'scale-object' || film.scale?.from !== 'object') return null;
  if (removed) return withoutScale(film);
  const { from: _from, inFile: _inFile, ...size } = film.scale;
  const scaled = withObjectScale(film, mark, size, settingsOf(document));
  return scaled.ok ? scaled.value : withoutScale(film);
}
