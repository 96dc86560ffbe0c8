import type { Axis } from '../geometry/axis.ts';
import { orientPair } from '../geometry/orient.ts';
import { type PlaneScale, toFilm, toPlane } from '../geometry/spacing.ts';
import { paintAngle } from './angle-painter.ts';
import type { DrawCommand } from './draw-command.ts';
import type { Projection } from './projection.ts';
import type { Figure, FilmSegment, Readout } from './scene.ts';
import type { StrokeScale } from './strokes.ts';

/**
 * The angle between the proximal and the distal axis of a film's own marks; nothing until there are both.
 *
 * It is drawn as it is measured: both axes run from proximal to distal, whichever way they were placed.
 */
export function paintAngleOf(
  figures: readonly Figure[],
  plane: PlaneScale,
  projection: Projection,
  strokes: StrokeScale,
  readout: Readout | null,
): readonly DrawCommand[] {
  const figureOf = (role: Figure['role']): Figure | undefined =>
    figures.find((figure) => figure.role === role && figure.style !== 'observer');
  const proximal = figureOf('proximal-axis')?.axis ?? null;
  const distal = figureOf('distal-axis')?.axis ?? null;
  if (proximal === null || distal === null) return [];
  const head = figureOf('distal-axis')?.circle ?? null;
  const onPlane = ({ from, to }: FilmSegment): Axis => ({
    from: toPlane(from, plane),
    to: toPlane(to, plane),
  });
  const onFilm = ({ from, to }: Axis): FilmSegment => ({ from: toFilm(from, plane), to: toFilm(to, plane) });
  const pair = orientPair(onPlane(proximal), onPlane(distal));
  return paintAngle(onFilm(pair.proximal), onFilm(pair.distal), projection, strokes, readout, head);
}
