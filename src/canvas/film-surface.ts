import * as cornerstone from 'cornerstone-core';
import { type Projection, scaled } from '../drawing/projection.ts';
import type { Film } from '../film/film.ts';
import type { DisplayLut } from '../film/grey-scale.ts';
import { planeScale } from '../geometry/spacing.ts';
import { FilmRaster, wholePixelShift } from './film-raster.ts';
import { columnsPerRow, type PlateSize, type PlateView } from './plate-view.ts';

/** cornerstone draws an image through this hook instead of its own renderer; its typings do not know it. */
interface HookedImage extends Partial<cornerstone.Image> {
  readonly render: () => void;
}

type PixelCoordinate = cornerstone.PixelCoordinate;

/**
 * The film, drawn by cornerstone: the only module that knows it.
 *
 * cornerstone keeps the viewport, the transform, the frame loop and the events. The pixels are ours: its
 * own renderer maps every pixel of the film at each change of light, turn or mirroring, ours only what is
 * visible (`film-raster.ts`). Its canvas has one pixel per CSS pixel whatever the screen, so the element is
 * made as large as the device pixels and scaled down by CSS; every coordinate that leaves this module is in
 * CSS pixels again.
 */
export class FilmSurface {
  readonly element: HTMLElement;
  private raster: FilmRaster | null = null;
  /** A second one, so that the inset does not throw away the cut of the plate. */
  private nativeRaster: FilmRaster | null = null;
  private lut: DisplayLut | null = null;
  private film: Film | null = null;
  private ratio = 1;
  private size: PlateSize = { width: 0, height: 0 };

  /**
   * @param onRendered - Called in the same frame, as soon as the film has been drawn anew.
   * @param onFrame - Called in every frame before the film is drawn, if it is.
   */
  constructor(
    host: HTMLElement,
    private readonly onRendered: () => void,
    private readonly onFrame: () => void,
  ) {
    this.element = document.createElement('div');
    Object.assign(this.element.style, {
      position: 'absolute',
      inset: '0 auto auto 0',
      transformOrigin: '0 0',
      visibility: 'hidden',
    });
    this.element.setAttribute('aria-hidden', 'true');
    host.append(this.element);
    cornerstone.enable(this.element);
    // Opaque, so that nothing is blended. The first getContext of a canvas wins: later ones are given this.
    this.canvasContext();
    this.element.addEventListener(cornerstone.EVENTS.IMAGE_RENDERED, this.onRendered);
    this.element.addEventListener(cornerstone.EVENTS.PRE_RENDER, this.onFrame);
  }

  /** Whether the film will be drawn anew in the coming frame. */
  get pending(): boolean {
    return this.film !== null && cornerstone.getEnabledElement(this.element).needsRedraw;
  }

  /** @param key - Tells one film from another; cornerstone's image id. */
  setFilm(film: Film | null, key: string): void {
    this.film = film;
    this.raster = film === null ? null : new FilmRaster(film);
    this.nativeRaster = film === null ? null : new FilmRaster(film);
    this.element.style.visibility = film === null ? 'hidden' : 'visible';
    if (film !== null) cornerstone.displayImage(this.element, this.imageOf(film, key));
  }

  setGrey(lut: DisplayLut): void {
    this.lut = lut;
    if (this.film !== null) cornerstone.updateImage(this.element);
  }

  /** @param ratio - Device pixels per CSS pixel. */
  setSize(size: PlateSize, ratio: number): void {
    this.size = size;
    this.ratio = ratio;
    Object.assign(this.element.style, {
      width: `${Math.round(size.width * ratio)}px`,
      height: `${Math.round(size.height * ratio)}px`,
      transform: `scale(${1 / ratio})`,
    });
    cornerstone.resize(this.element, false);
  }

  setView({ centre, magnification, turn, mirrored }: PlateView): void {
    const { film } = this;
    if (film === null) return;
    // cornerstone's scale is device pixels along the smaller of the two spacings of a pixel.
    const perRow = columnsPerRow(planeScale(film.spacing));
    // Its transform is: screen = middle + R·S·R⁻¹·t + R·S·F·(point − middle of the film), with R the turn,
    // S the scales, F the mirroring and t the translation; so `centre` is in the middle of the plate for
    // t = −R·F·(centre − middle of the film).
    const x = (mirrored ? -1 : 1) * (centre.column - film.columns / 2);
    const y = centre.row - film.rows / 2;
    const angle = (turn * Math.PI) / 180;
    cornerstone.setViewport(this.element, {
      scale: magnification * this.ratio * Math.min(1, perRow),
      translation: {
        x: -(Math.cos(angle) * x - Math.sin(angle) * y),
        y: -(Math.sin(angle) * x + Math.cos(angle) * y),
      },
      rotation: turn,
      hflip: mirrored,
      vflip: false,
    });
    this.layOnWholePixels();
  }

  /**
   * A film shown one pixel to one is laid on the pixels of the screen, by less than half of one: between them it would
   * be drawn blurred, and take twice as long. The marks follow, since they are placed by what cornerstone then has.
   */
  private layOnWholePixels(): void {
    const { e, f, ...linear } = this.deviceProjection();
    const shift = wholePixelShift({ ...linear, e: Math.round(e), f: Math.round(f) });
    if (shift === null) return;
    const { x, y } = cornerstone.getViewport(this.element)?.translation ?? { x: 0, y: 0 };
    cornerstone.setViewport(this.element, { translation: { x: x + shift.x - e, y: y + shift.y - f } });
  }

  /** The map from film coordinates to CSS pixels that the next frame is drawn with; null without a film. */
  projection(): Projection | null {
    if (this.film === null || this.size.width === 0) return null;
    return scaled(this.deviceProjection(), 1 / this.ratio);
  }

  /** Draws the film within this task: resizing has blanked its canvas, and the next frame may be late. */
  drawNow(): void {
    if (this.film === null) return;
    this.render();
    this.onRendered();
  }

  /** Draws the film into another canvas, from its stored pixels, through the same lookup table. */
  drawNative(context: CanvasRenderingContext2D, projection: Projection, { width, height }: PlateSize): void {
    if (this.lut !== null) this.nativeRaster?.draw(context, projection, width, height, this.lut, true);
  }

  destroy(): void {
    this.element.removeEventListener(cornerstone.EVENTS.IMAGE_RENDERED, this.onRendered);
    this.element.removeEventListener(cornerstone.EVENTS.PRE_RENDER, this.onFrame);
    // Without this its frame loop would run for ever.
    cornerstone.disable(this.element);
    this.element.remove();
  }

  private deviceProjection(): Projection {
    const at = (x: number, y: number) => cornerstone.pixelToCanvas(this.element, { x, y } as PixelCoordinate);
    const origin = at(0, 0);
    const column = at(1, 0);
    const row = at(0, 1);
    return {
      a: column.x - origin.x,
      b: column.y - origin.y,
      c: row.x - origin.x,
      d: row.y - origin.y,
      e: origin.x,
      f: origin.y,
    };
  }

  private imageOf(film: Film, key: string): cornerstone.Image {
    const scale = planeScale(film.spacing);
    const image: HookedImage = {
      imageId: `film:${key}`,
      columns: film.columns,
      rows: film.rows,
      width: film.columns,
      height: film.rows,
      // Only their ratio enters the transform.
      columnPixelSpacing: scale.perColumn,
      rowPixelSpacing: scale.perRow,
      color: false,
      invert: false,
      render: () => this.render(),
    };
    return image as cornerstone.Image;
  }

  private canvasContext(): CanvasRenderingContext2D | null {
    const { canvas } = cornerstone.getEnabledElement(this.element);
    return canvas?.getContext('2d', { alpha: false, desynchronized: true }) ?? null;
  }

  private render(): void {
    const context = this.canvasContext();
    if (context === null) return;
    const { width, height } = context.canvas;
    const projection = this.deviceProjection();
    if (this.lut !== null && this.raster?.put(context, projection, width, height, this.lut)) return;
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.fillStyle = '#000';
    context.fillRect(0, 0, width, height);
    if (this.lut !== null) this.raster?.draw(context, projection, width, height, this.lut);
  }
}
