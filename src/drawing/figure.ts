import { axisPoints } from '../case/axes.ts';
import type { MarkShape } from '../case/document.ts';
import { controlPoints } from '../case/marks.ts';
import { type Placing, placedPoints } from '../case/placing.ts';
import { fitCircle } from '../geometry/circle.ts';
import { constructAxis } from '../geometry/constructions.ts';
import { type PlaneScale, toFilm, toPlane } from '../geometry/spacing.ts';
import { type FilmPoint, filmPoint, type PlanePoint } from '../geometry/units.ts';
import type { Figure, FilmSegment, SceneMark } from './scene.ts';
import { styleOfRole } from './scene.ts';

/** A figure is drawn from any points that give one; how sure it is belongs to the reading. */
const NO_PLACING_ERROR = {
  standardUncertainty: 0,
  basis: { text: 'not needed for drawing', degreesOfFreedom: Number.POSITIVE_INFINITY },
};

/**
 * What is drawn of a mark: its control points and what they give. A mark whose points give no axis yet (a
 * head of three points in a row) is drawn with its points alone.
 */
export const figureOf = (
  { record: { role, shape }, style, editable }: SceneMark,
  scale: PlaneScale,
): Figure => ({
  role,
  style,
  points: controlPoints({ role, shape }),
  showPoints: editable,
  ...withCentre({ ...linksOf(shape), ...fitOf(shape, scale) }),
});

/** The centre of a head is an end of its axis, and nothing else shows where it is. */
const withCentre = <Fitted extends Pick<Figure, 'circle' | 'midPoints'>>(fitted: Fitted): Fitted =>
  fitted.circle === null ? fitted : { ...fitted, midPoints: [...fitted.midPoints, fitted.circle.centre] };

/** What is drawn of a mark that is being placed, as far as it goes. */
export function draftFigure(placing: Placing, scale: PlaneScale): Figure {
  const { role, construction, points } = placing;
  const head = construction === 'head' && points.length >= 3;
  // The circle is shown as soon as the rim fixes it, before the broken end is placed.
  const rim: MarkShape | null = head ? { construction, rim: points, brokenEnd: filmPoint(0, 0) } : null;
  return {
    role,
    style: styleOfRole(role),
    points: placedPoints(placing),
    showPoints: true,
    axis: null,
    circle: rim === null ? null : fitOf(rim, scale).circle,
    links: draftLinks(placing),
    midPoints: [],
  };
}

/** The placed point that a fine line runs from to the point being placed; null: none. */
export function joinFrom({ construction, points }: Placing): FilmPoint | null {
  const last = points.at(-1) ?? null;
  switch (construction) {
    case 'cortex-pair':
    case 'canal':
      return points.length % 2 === 1 ? last : null;
    case 'free':
    case 'segment':
    case 'dorsal-cortex':
      return last;
    case 'head':
    case 'circle':
    case 'point':
      return null;
  }
}

function draftLinks({ construction, points }: Placing): readonly FilmSegment[] {
  if (construction === 'dorsal-cortex') return chain(points);
  if (construction !== 'cortex-pair' && construction !== 'canal') return [];
  return points.flatMap((from, index) => {
    const to = points[index + 1];
    return index % 2 === 0 && to !== undefined ? [{ from, to }] : [];
  });
}

function linksOf(shape: MarkShape): Pick<Figure, 'links' | 'midPoints'> {
  switch (shape.construction) {
    case 'cortex-pair':
    case 'canal':
      return {
        links: shape.levels.map(({ one, other }) => ({ from: one, to: other })),
        // A middle is a middle in film coordinates too: both axes are scaled evenly.
        midPoints: shape.levels.map(({ one, other }) =>
          filmPoint((one.column + other.column) / 2, (one.row + other.row) / 2),
        ),
      };
    default:
      return { links: [], midPoints: [] };
  }
}

const chain = (points: readonly FilmPoint[]): readonly FilmSegment[] =>
  points.flatMap((to, index) => {
    const from = points[index - 1];
    return from === undefined ? [] : [{ from, to }];
  });

function fitOf(shape: MarkShape, scale: PlaneScale): Pick<Figure, 'axis' | 'circle'> {
  if (shape.construction === 'segment') return { axis: { from: shape.from, to: shape.to }, circle: null };
  if (shape.construction === 'circle') {
    const fitted = fitCircle(shape.rim.map((point) => toPlane(point, scale)));
    return { axis: null, circle: fitted.ok ? onFilm(fitted.value, scale) : null };
  }
  const points = axisPoints(shape, scale);
  const built = points === null ? null : constructAxis(points, NO_PLACING_ERROR);
  if (!built?.ok) return { axis: null, circle: null };
  const { axis, circle } = built.value;
  return {
    axis: { from: toFilm(axis.from, scale), to: toFilm(axis.to, scale) },
    circle: circle && onFilm(circle, scale),
  };
}

const onFilm = (
  { centre, radius }: { readonly centre: PlanePoint; readonly radius: number },
  scale: PlaneScale,
) => ({ centre: toFilm(centre, scale), radiusColumns: radius / scale.perColumn });
