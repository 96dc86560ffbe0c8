import { type AngulationFailure, type AngulationReading, angulation } from '../../geometry/angulation.ts';
import { axisLength } from '../../geometry/axis.ts';
import {
  type AxisInput,
  type AxisPair,
  coincidingPoints,
  type SharedPoint,
} from '../../geometry/axis-input.ts';
import { type AxisFailure, constructAxis } from '../../geometry/constructions.ts';
import type { PlacingError } from '../../geometry/placing.ts';
import { type PlaneScale, planeScale, toPlane } from '../../geometry/spacing.ts';
import { degrees } from '../../geometry/units.ts';
import type { Construction, Ray } from '../../tolerance/anatomy.ts';
import type { AxisFacts } from '../../tolerance/caution-facts.ts';
import { axisPoints } from '../axes.ts';
import type { MarkRecord, MarkRole, Provenance, SettingsRecord } from '../document.ts';
import type { MarkedFilm } from '../film-marks.ts';
import { placingOn } from '../film-placing.ts';
import { drawnBy } from '../format.ts';
import type { Reading } from '../reading.ts';
import { roleName } from '../roles.ts';
import { known, missing } from './known.ts';
import { inView } from './names.ts';
import { remembered } from './remembered.ts';

/** The measured angulation of one film, with what normals, limits and cautions need to know of it. */
export interface FilmAngle {
  readonly reading: Reading;
  /** Null while the reading is missing. */
  readonly angle: {
    readonly measured: AngulationReading;
    /** What it was measured from. */
    readonly pair: AxisPair & { readonly shared: readonly SharedPoint[] };
    readonly proximal: Construction;
    readonly distal: Construction;
    /** How the two marks came about: proximal, then distal. */
    readonly provenances: readonly [Provenance, Provenance];
  } | null;
  readonly axes: readonly AxisFacts[];
}

/** The role of the tap that gives the angle its sign: radial on a PA film, dorsal on any other. */
export const sideRole = (film: {
  readonly view: MarkedFilm['film']['view'];
}): 'dorsal-side' | 'radial-side' => (film.view === 'pa' ? 'radial-side' : 'dorsal-side');

/**
 * The angulation on one film; null while neither axis is placed there.
 *
 * @param name - What the film is called in sentences.
 */
export const filmAngle = remembered(
  computeFilmAngle,
  ({ film }) => film,
  ({ film, marks }, settings, ray, name) => [
    marks['proximal-axis'],
    marks['distal-axis'],
    marks[sideRole(film)],
    marks.length,
    settings,
    ray,
    name,
  ],
);

function computeFilmAngle(
  marked: MarkedFilm,
  settings: SettingsRecord,
  ray: Ray | null,
  name: string,
): FilmAngle | null {
  const { film, marks } = marked;
  const [proximalMark, distalMark] = [marks['proximal-axis'], marks['distal-axis']];
  if (proximalMark === undefined && distalMark === undefined) return null;
  const scale = planeScale(film.spacing);
  const placing = placingOn(marked, settings, ray);
  const lacking = (lacks: string): FilmAngle => ({
    reading: missing(film, 'angulation', lacks),
    angle: null,
    axes: [],
  });
  if (placing === null) return lacking(`All the points on the ${name} lie on one spot: place the axes anew.`);
  const proximal = axisInput(proximalMark, scale, placing);
  const distal = axisInput(distalMark, scale, placing);
  const lacksAxis = (which: 'proximal' | 'distal', other: AxisInput | null): FilmAngle => {
    const alone = other === null ? null : constructAxis(other.points, placing);
    const placed = which === 'proximal' ? 'distal' : 'proximal';
    return lacking(
      [
        `The ${which} axis on the ${name} is missing: place it.`,
        // Said at once, while the bone is still being looked at, and not only after the next axis.
        ...(alone === null || alone.ok
          ? []
          : [axisLacks(alone.error, roleName(`${placed}-axis`), name, scale.unit)]),
      ].join(' '),
    );
  };
  if (proximal === null) return lacksAxis('proximal', distal);
  if (distal === null) return lacksAxis('distal', proximal);
  const side = marks[sideRole(film)];
  const shared = coincidingPoints(proximal.points, distal.points);
  const result = angulation({
    proximal,
    distal,
    tapped:
      side?.shape.construction === 'point'
        ? { side: film.view === 'pa' ? 'radial' : 'dorsal', at: toPlane(side.shape.at, scale) }
        : null,
    shared,
  });
  if (!result.ok) return lacking(angulationLacks(result.error, sideRole(film), name, scale.unit));
  const measured = result.value;
  const constructions = [proximal.points.construction, distal.points.construction] as const;
  const provenances = [proximalMark?.provenance ?? 'placed', distalMark?.provenance ?? 'placed'] as const;
  return {
    reading: known(film, 'angulation', measured, {
      unit: 'degrees',
      signed: measured.signed,
      apex: measured.apex,
      constructions,
      provenances,
      definition: `Angle ${inView(film.view)} between the proximal axis (${drawnBy(constructions[0], provenances[0])}) and the distal axis (${drawnBy(constructions[1], provenances[1])}) on the ${name}.`,
      leavesOut: measured.flags.directionUnsure
        ? 'Which end of an axis is the distal one could not be told from where the axes lie. The interval also leaves out turning of the hand out of the view, and differences of opinion over where an axis lies.'
        : 'The interval leaves out turning of the hand out of the view, and differences of opinion over where an axis lies.',
      basis: null,
    }),
    angle: {
      measured,
      pair: { proximal, distal, shared },
      proximal: constructions[0],
      distal: constructions[1],
      provenances,
    },
    axes: (['proximal', 'distal'] as const).map((which) =>
      axisFacts(roleName(`${which}-axis`), axisLength(measured.axes[which]), scale, placing),
    ),
  };
}

function axisInput(mark: MarkRecord | undefined, scale: PlaneScale, placing: PlacingError): AxisInput | null {
  const points = mark === undefined ? null : axisPoints(mark.shape, scale);
  if (mark === undefined || points === null) return null;
  const { tracing } = mark;
  if (mark.provenance !== 'traced' || tracing === undefined) return { kind: 'placed', points, placing };
  return {
    kind: 'traced',
    points,
    placing,
    directionUncertainty: degrees(tracing.directionUncertaintyDegrees),
    basis: { text: tracing.basis, degreesOfFreedom: Number.POSITIVE_INFINITY },
  };
}

const axisFacts = (name: string, length: number, scale: PlaneScale, placing: PlacingError): AxisFacts => ({
  name,
  lengthMm: scale.unit === 'mm' ? length : null,
  lengthInPlacingErrors: length / placing.standardUncertainty,
});

function angulationLacks(
  error: AngulationFailure,
  side: MarkRole,
  film: string,
  unit: PlaneScale['unit'],
): string {
  if (error.kind === 'side-on-axis') {
    return `The ${roleName(side)} on the ${film} was tapped too near to an axis to tell the sides apart: tap it farther away.`;
  }
  return axisLacks(error.failure, roleName(`${error.which}-axis`), film, unit);
}

/** Why the points of an axis make no axis, and what to do. */
function axisLacks(error: AxisFailure, axis: string, film: string, unit: PlaneScale['unit']): string {
  const start = `The ${axis} on the ${film}`;
  switch (error.kind) {
    case 'points-coincide':
      return `${start} has no length, because its points coincide: move them apart.`;
    case 'too-few-points':
      return `${start} has ${error.found} of the ${error.needed} points it needs: place it anew.`;
    case 'no-direction':
      return `${start} has no direction, because its points lie in a heap: place them farther apart along the bone.`;
    case 'circle-not-defined':
      return `${start} has rim points over ${Math.round(error.arc)}° of the head, and a circle needs ${Math.round(error.neededArc)}°: spread them around the rim.`;
    case 'circle-too-small':
      return `${start} has a head circle of ${inUnit(error.radius, unit)} radius, and it needs at least ${inUnit(error.neededRadius, unit)}: spread its points around the rim of the head.`;
    case 'axis-too-short':
      return `${start} is ${inUnit(error.length, unit)} long and needs at least ${inUnit(error.neededLength, unit)} to have a direction: place its ends farther apart.`;
  }
}

const inUnit = (length: number, unit: PlaneScale['unit']): string =>
  unit === 'mm' ? `${length.toFixed(1)}\u2009mm` : `${Math.round(length)} pixels`;
