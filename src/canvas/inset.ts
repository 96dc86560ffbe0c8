import Konva from 'konva/lib/Core.js';
import type { Group } from 'konva/lib/Group.js';
import { Circle } from 'konva/lib/shapes/Circle.js';
import { Image } from 'konva/lib/shapes/Image.js';
import { type FilmPoint, type ScreenPoint, screenPoint } from '../geometry/units.ts';
import type { DrawCommand } from './draw-command.ts';
import { type MarkPlayer, newGroup } from './mark-player.ts';
import type { PlateSize } from './plate-view.ts';
import { magnifiedAt, type Projection, pixelsPerColumn, scaled } from './projection.ts';
import { CASING_COLOUR } from './strokes.ts';

export type Corner = 'top-left' | 'top-right' | 'bottom-left' | 'bottom-right';

export interface InsetPlace {
  readonly corner: Corner;
  readonly centre: ScreenPoint;
  readonly radius: number;
}

/** CSS pixels. */
const DIAMETER = 170;
const EDGE = 16;
/** It moves to another corner only when the point comes this near, so that it does not jump about. */
const TOO_NEAR = 48;
/** Against the plate; and in CSS pixels per column, between which the factor gives way. */
const FACTOR = 3;
const LEAST_PIXELS_PER_COLUMN = 1;
const MOST_PIXELS_PER_COLUMN = 8;

/**
 * Where the inset stands: in the corner farthest from the point, and it stays in its corner while the point
 * is not close to it. Never more than 45 % of the shorter side of the plate.
 */
export function insetPlace(
  previous: Corner | null,
  point: ScreenPoint,
  { width, height }: PlateSize,
): InsetPlace {
  const radius = Math.min(DIAMETER, 0.45 * Math.min(width, height)) / 2;
  const reach = radius + EDGE;
  const centres: readonly (readonly [Corner, ScreenPoint])[] = [
    ['top-right', screenPoint(width - reach, reach)],
    ['top-left', screenPoint(reach, reach)],
    ['bottom-right', screenPoint(width - reach, height - reach)],
    ['bottom-left', screenPoint(reach, height - reach)],
  ];
  const distance = (centre: ScreenPoint) => Math.hypot(centre.x - point.x, centre.y - point.y);
  const kept = centres.find(([corner]) => corner === previous);
  const [corner, centre] =
    kept !== undefined && distance(kept[1]) > radius + TOO_NEAR
      ? kept
      : centres.reduce((best, other) => (distance(other[1]) > distance(best[1]) ? other : best));
  return { corner, centre, radius };
}

/** The projection of the inset: the plate's, magnified, with `point` in the middle of a square of its size. */
export function insetProjection(plate: Projection, point: FilmPoint, radius: number): Projection {
  const now = pixelsPerColumn(plate);
  const wanted = Math.min(Math.max(now * FACTOR, LEAST_PIXELS_PER_COLUMN), MOST_PIXELS_PER_COLUMN);
  return magnifiedAt(plate, point, screenPoint(radius, radius), Math.max(wanted, now) / now);
}

/** Draws the film as stored into a canvas, with a projection to the canvas's own pixels. */
export type DrawFilm = (context: CanvasRenderingContext2D, projection: Projection, size: PlateSize) => void;

/** The magnified, circular part of the film round the point that is being placed or moved. */
export class Inset {
  readonly group: Group;
  private readonly canvas = document.createElement('canvas');
  private readonly picture: Image;
  private readonly content: Group;
  private readonly marks = newGroup();
  private readonly rims: readonly Circle[];
  private radius = 0;
  private corner: Corner | null = null;

  constructor(private readonly player: MarkPlayer) {
    this.group = newGroup();
    this.picture = new Image({ image: this.canvas, listening: false, perfectDrawEnabled: false });
    this.content = new Konva.Group({
      listening: false,
      clipFunc: (context) => context.arc(this.radius, this.radius, this.radius, 0, 2 * Math.PI),
    });
    this.content.add(this.picture, this.marks);
    this.rims = [
      new Circle({ stroke: CASING_COLOUR, strokeWidth: 3, listening: false }),
      new Circle({ stroke: '#857F70', strokeWidth: 1, listening: false }),
    ];
    this.group.add(this.content, ...this.rims);
  }

  /**
   * @param at - The point, on the plate.
   * @param point - The same point, on the film.
   * @param paint - Gives the marks to draw above the film, in coordinates of the inset.
   * @param ratio - Device pixels per CSS pixel.
   */
  show(
    at: ScreenPoint,
    point: FilmPoint,
    plate: { readonly projection: Projection; readonly size: PlateSize; readonly ratio: number },
    drawFilm: DrawFilm,
    paint: (projection: Projection, middle: ScreenPoint) => readonly DrawCommand[],
  ): void {
    const { corner, centre, radius } = insetPlace(this.corner, at, plate.size);
    this.corner = corner;
    this.setRadius(radius, plate.ratio);
    const projection = insetProjection(plate.projection, point, radius);
    const context = this.canvas.getContext('2d', { alpha: false });
    if (context !== null) {
      const { width, height } = this.canvas;
      context.setTransform(1, 0, 0, 1, 0, 0);
      context.fillStyle = '#000';
      context.fillRect(0, 0, width, height);
      drawFilm(context, scaled(projection, plate.ratio), { width, height });
    }
    this.player.play(this.marks, paint(projection, screenPoint(radius, radius)));
    this.group.position({ x: centre.x - radius, y: centre.y - radius });
  }

  /** Forgets its corner: the next point may be shown in any. */
  forget(): void {
    this.corner = null;
  }

  private setRadius(radius: number, ratio: number): void {
    const pixels = Math.round(2 * radius * ratio);
    if (radius === this.radius && this.canvas.width === pixels) return;
    this.radius = radius;
    this.canvas.width = pixels;
    this.canvas.height = pixels;
    this.picture.size({ width: 2 * radius, height: 2 * radius });
    for (const rim of this.rims) rim.setAttrs({ x: radius, y: radius, radius });
  }
}
