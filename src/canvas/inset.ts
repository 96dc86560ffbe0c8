import Konva from 'konva/lib/Core.js';
import type { Group } from 'konva/lib/Group.js';
import { Circle } from 'konva/lib/shapes/Circle.js';
import { Image } from 'konva/lib/shapes/Image.js';
import type { DrawCommand } from '../drawing/draw-command.ts';
import { type Projection, scaled } from '../drawing/projection.ts';
import { CASING_COLOUR } from '../drawing/strokes.ts';
import { type FilmPoint, type ScreenPoint, screenPoint } from '../geometry/units.ts';
import { type Corner, insetPlace, insetProjection } from './inset-place.ts';
import { type MarkPlayer, newGroup } from './mark-player.ts';
import type { PlateSize } from './plate-view.ts';

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
