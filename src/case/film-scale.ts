import { type KnownSizeFailure, pooledScale, scaleFromObject } from '../geometry/known-size.ts';
import { magnificationRange } from '../geometry/length-scale.ts';
import { NOMINAL_PLACING_ERROR_MM } from '../geometry/placing.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import type { Spacing } from '../geometry/spacing.ts';
import type { CaseDocument, FilmRecord, FilmScale, MarkRecord, SettingsRecord } from './document.ts';
import { leastPlacingError } from './film-placing.ts';
import { settingsOf } from './fixed-records.ts';
import { markId } from './marks.ts';
import { isScaleRole, SCALE_ROLES } from './roles.ts';

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
 * The film with the scale that an object of known size on it gives, or two of them together. The shape of the pixels
 * stays as the file has it; what the file says of millimetres is kept beside it and, where the two cannot both be right,
 * said. So is it where the two objects cannot.
 *
 * @param further - The mark of the second object, whose size `size` has.
 *
 * Fails as `scaleFromObject` does, and with `not-a-scale-object` for a mark of another role.
 */
export function withObjectScale(
  film: FilmRecord,
  mark: MarkRecord,
  size: ObjectSize,
  settings: SettingsRecord,
  further: MarkRecord | null = null,
): Result<FilmRecord, ScaleFailure> {
  const inFile = spacingInFile(film);
  const { further: second, ...alone } = size;
  const first = scaleByOne(film, mark, alone, settings);
  if (!first.ok) return first;
  if (second === undefined || further === null) {
    const spacing = { ...first.value, conflicts: conflictsBetween(first.value, inFile) };
    return success({ ...film, spacing, scale: { from: 'object', inFile, ...alone } });
  }
  const other = scaleByOne(film, further, { ...second, plane: size.plane }, settings);
  if (!other.ok) return other;
  const { disagree, ...pooled } = pooledScale([first.value, other.value]);
  const both: Millimetre = {
    ...first.value,
    ...pooled,
    calibrationDescription: `objects of ${size.typed} and ${second.typed}`,
  };
  const conflicts = [
    ...(disagree ? [disagreement([first.value, size.typed], [other.value, second.typed])] : []),
    ...conflictsBetween(both, inFile, 'the two objects of known size give; they are used'),
  ];
  return success({ ...film, spacing: { ...both, conflicts }, scale: { from: 'object', inFile, ...size } });
}

/** The scale by one of the objects on a film, with nothing said of conflicts. */
function scaleByOne(
  film: FilmRecord,
  { role, shape }: MarkRecord,
  size: Omit<ObjectSize, 'further'>,
  settings: SettingsRecord,
): Result<Millimetre, ScaleFailure> {
  const object =
    shape.construction === 'circle'
      ? ({ kind: 'round', rim: shape.rim } as const)
      : shape.construction === 'segment'
        ? ({ kind: 'straight', from: shape.from, to: shape.to } as const)
        : null;
  if (!isScaleRole(role) || object === null) return failure({ kind: 'not-a-scale-object' });
  const known = {
    size: size.sizeMm as Parameters<typeof scaleFromObject>[1]['size'],
    sizeRelativeUncertainty: size.sizeRelativeUncertainty,
    description: `object of ${size.typed}`,
    plane: size.plane,
  };
  const placed = (standardUncertainty: number) =>
    scaleFromObject(object, known, rowToColumn(spacingInFile(film)), {
      standardUncertainty,
      basis: { text: 'placing of the object', degreesOfFreedom: Number.POSITIVE_INFINITY },
    });
  const stated = settings.placingErrorMm ?? NOMINAL_PLACING_ERROR_MM;
  const first = placed(stated);
  // The size of a pixel is known only now; no point is placed better than that allows.
  return first.ok ? placed(Math.max(stated, leastPlacingError({ ...film, spacing: first.value }))) : first;
}

type Sized = readonly [scale: Millimetre, typed: string];

function disagreement([one, oneTyped]: Sized, [other, otherTyped]: Sized): string {
  const percent = Math.round(100 * Math.abs(other.columnSpacingMm / one.columnSpacingMm - 1));
  return `The two known lengths disagree: ${oneTyped} gives ${one.columnSpacingMm.toFixed(3)} mm per column and ${otherTyped} gives ${other.columnSpacingMm.toFixed(3)} mm, ${percent} % apart and more than placing explains. Check both sizes, their ends, and that both lay at one height; until then the ± of the scale is widened.`;
}

/**
 * What the file says against the object's scale: a difference beyond what the magnification to reckon with and
 * twice the scale's own uncertainty explain.
 */
function conflictsBetween(
  byObject: Millimetre,
  inFile: Spacing,
  used = 'the object of known size gives; the object is used',
): readonly string[] {
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
    `The file says ${inFile.columnSpacingMm.toFixed(3)} mm per column, ${percent} % ${ratio > 1 ? 'more' : 'less'} than ${used}.`,
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
    calibrationDescription: `divided by the estimated magnification of ${Number(factor.toFixed(4))}`,
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
 * the object no longer gives a scale, the file's own comes back; when the second of two is taken away, the first stays.
 */
export function filmFollowing(document: CaseDocument, mark: MarkRecord, removed: boolean): FilmRecord | null {
  const film = document.records[mark.filmId];
  if (film?.kind !== 'film' || film.scale?.from !== 'object' || !isScaleRole(mark.role)) return null;
  const { from: _from, inFile: _inFile, ...size } = film.scale;
  if (mark.role === 'scale-object-2' && size.further === undefined) return null;
  const [first, further] = SCALE_ROLES.map((role): MarkRecord | null => {
    if (role === mark.role) return removed ? null : mark;
    const there = document.records[markId(film.id, role)];
    return there?.kind === 'mark' ? there : null;
  });
  // A part of a film has its scale and not its marks: a second length alone says nothing against that.
  if (!first) return mark.role === 'scale-object' ? withoutScale(film) : null;
  const scaled = withObjectScale(film, first, size, settingsOf(document), further);
  return scaled.ok ? scaled.value : withoutScale(film);
}
