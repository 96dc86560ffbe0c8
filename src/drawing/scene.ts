import type { MarkRecord, MarkRole, RecordId } from '../case/document.ts';
import type { ControlPoint } from '../case/marks.ts';
import type { FilmPoint } from '../geometry/units.ts';
import type { MarkStyle } from './strokes.ts';

/** Everything drawn over the film. */
export interface MarkScene {
  /** Whose marks these are; the readout of the angle goes by this id. */
  readonly filmId: RecordId;
  readonly marks: readonly SceneMark[];
  /** Whether the angle between the proximal and the distal axis is drawn at their crossing. */
  readonly showAngle: boolean;
  /** Strokes twice as wide and larger text for a projector. */
  readonly strokes: 'reading' | 'projector';
}

/** A mark as the app hands it in. */
export interface SceneMark {
  readonly record: MarkRecord;
  readonly style: MarkStyle;
  /** Whether its points can be moved here; without it only its lines are drawn. */
  readonly editable: boolean;
}

/** A mark of the case's own film, in the style of its role and to be moved. */
export const ownMark = (record: MarkRecord): SceneMark => ({
  record,
  style: styleOfRole(record.role),
  editable: true,
});

/** How a mark is drawn: the two axes each in its own style, everything else as a reference. */
export function styleOfRole(role: MarkRole): MarkStyle {
  if (role === 'proximal-axis') return 'proximal';
  return role === 'distal-axis' ? 'distal' : 'reference';
}

export interface FilmSegment {
  readonly from: FilmPoint;
  readonly to: FilmPoint;
}

/** What is drawn of a mark, finished or not, worked out from its points. All in film coordinates. */
export interface Figure {
  readonly role: MarkRole;
  readonly style: MarkStyle;
  readonly points: readonly ControlPoint[];
  readonly showPoints: boolean;
  /** The fitted axis, directed from proximal to distal, or the segment of a mark that is one. */
  readonly axis: FilmSegment | null;
  /** The fitted circle of a head; its radius in widths of a column, since a column is as wide on any film. */
  readonly circle: { readonly centre: FilmPoint; readonly radiusColumns: number } | null;
  /** Fine lines across the bone, or along it, that join the points the axis is fitted to. */
  readonly links: readonly FilmSegment[];
  /** What the axis is fitted through: the middles of the links, or the centre of the head. */
  readonly midPoints: readonly FilmPoint[];
}

/** One control point of one mark of the scene. */
export interface PointRef {
  readonly markId: RecordId;
  readonly key: string;
}

export const samePoint = (one: PointRef | null, other: PointRef | null): boolean =>
  one?.markId === other?.markId && one?.key === other?.key;

/** Live text beside a mark or the angle; the value large, its uncertainty smaller: "52°", "± 5". */
export interface Readout {
  readonly value: string;
  readonly uncertainty: string | null;
}

/** Readouts by the id of a mark, or by the id of the film for the angle. */
export type Readouts = ReadonlyMap<RecordId, Readout>;
