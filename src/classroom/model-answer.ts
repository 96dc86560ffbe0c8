import type { CaseDocument, FilmRecord, MarkRecord, MarkRole, MarkShape } from '../case/document.ts';
import { markId } from '../case/marks.ts';
import { planeScale } from '../geometry/spacing.ts';
import { type FilmPoint, filmPoint } from '../geometry/units.ts';
import type { OutlineStation } from '../phantom/outlines.ts';
import type { PhantomRay } from '../phantom/spec.ts';
import type { KnownFilm } from './reveal.ts';
import { type FragmentName, type KnownBone, stationsOf } from './true-axes.ts';

/** Directions of the three points on the rim of the head, degrees from its axis. */
const RIM_DEGREES = [-80, 0, 80] as const;
/** Levels of a canal as shares of the fragment, clear of the base and of the break. */
const LEVELS = { proximal: [0.35, 0.9], distal: [0.12, 0.7] } as const;

/**
 * The marks that somebody who saw everything would place on an invented film, as a demonstration shows them: the canal
 * of the near fragment, the head or the canal of the far one, and the side.
 */
export function modelAnswer(
  document: CaseDocument,
  film: FilmRecord,
  ray: PhantomRay,
  known: KnownFilm,
): CaseDocument {
  const truth = known.truth.rays.find((one) => one.ray === ray);
  if (truth === undefined) return document;
  const bone: KnownBone = { truth, outline: known.outlines[ray], scale: planeScale(film.spacing) };
  const byHead = truth.axesBy === 'shaft-and-head-centre';
  const sideRole: MarkRole = film.view === 'pa' ? 'radial-side' : 'dorsal-side';
  const shapes: readonly (readonly [MarkRole, MarkShape])[] = [
    ['proximal-axis', canalOf(bone, 'proximal')],
    ['distal-axis', byHead ? headOf(bone) : canalOf(bone, 'distal')],
    [sideRole, { construction: 'point', at: beside(bone, film.view === 'pa' ? 'radial' : 'dorsal') }],
  ];
  const marks = shapes.map(
    ([role, shape]): MarkRecord => ({
      kind: 'mark',
      id: markId(film.id, role),
      filmId: film.id,
      role,
      shape,
      provenance: 'placed',
    }),
  );
  return {
    ...document,
    records: { ...document.records, ...Object.fromEntries(marks.map((mark) => [mark.id, mark])) },
  };
}

function canalOf(bone: KnownBone, fragment: FragmentName): MarkShape {
  const stations = stationsOf(bone, fragment);
  const levels = LEVELS[fragment].map((share) => {
    const [one, other] = wallsOf(stations[Math.round(share * (stations.length - 1))]!);
    return { one, other };
  });
  return { construction: 'canal', levels };
}

const wallsOf = ({ inner, outer }: OutlineStation): readonly [FilmPoint, FilmPoint] => inner ?? outer;

function headOf(bone: KnownBone): MarkShape {
  const { headCentre, headRadiusPixels } = bone.truth;
  const brokenEnd = bone.truth.distalAxis.from;
  const ahead = Math.atan2(headCentre.row - brokenEnd.row, headCentre.column - brokenEnd.column);
  const rim = RIM_DEGREES.map((turn) => {
    const angle = ahead + (turn * Math.PI) / 180;
    return filmPoint(
      headCentre.column + headRadiusPixels * Math.cos(angle),
      headCentre.row + headRadiusPixels * Math.sin(angle),
    );
  });
  return { construction: 'head', rim, brokenEnd };
}

/** A point well to one side of the break. */
function beside({ truth, scale }: KnownBone, side: 'dorsal' | 'radial'): FilmPoint {
  const { columns, rows } = truth[side];
  const reach = 14 / scale.perColumn / Math.max(0.05, Math.hypot(columns, rows));
  const { to } = truth.proximalAxis;
  return filmPoint(to.column + reach * columns, to.row + reach * rows);
}
