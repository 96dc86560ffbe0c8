/**
 * Units and coordinate spaces as types, so that the compiler refuses to mix them.
 *
 * Three spaces:
 * - film: `column` to the right, `row` down, in pixels of the film as stored; the centre of the first
 *   pixel is at (0.5, 0.5). Everything that is kept is kept here.
 * - plane: `x` to the right, `y` down, in plane units (millimetres where the spacing of the film is
 *   known, columns of the film where it is not). Every angle and length is computed here.
 * - screen: CSS pixels of the plate. Never kept.
 *
 * Rows run downwards, so an angle from one direction to another is positive when it turns clockwise as
 * displayed. What that means for the bone (apex dorsal, apex radial) depends on the side of the film that
 * is dorsal or radial, and is decided in `angulation.ts` alone.
 */

declare const brand: unique symbol;

/** A value that only its own constructor makes; the name never exists at run time. */
export type Brand<Value, Name extends string> = Value & { readonly [brand]: Name };

export type Degrees = Brand<number, 'degrees'>;
export type Millimetres = Brand<number, 'millimetres'>;

export const degrees = (value: number): Degrees => value as Degrees;
export const millimetres = (value: number): Millimetres => value as Millimetres;

export const DEGREES_PER_RADIAN = 180 / Math.PI;
export const toDegrees = (radians: number): Degrees => degrees(radians * DEGREES_PER_RADIAN);
export const toRadians = (angle: Degrees): number => angle / DEGREES_PER_RADIAN;

export type FilmPoint = Brand<{ readonly column: number; readonly row: number }, 'film-point'>;
export type PlanePoint = Brand<{ readonly x: number; readonly y: number }, 'plane-point'>;
export type ScreenPoint = Brand<{ readonly x: number; readonly y: number }, 'screen-point'>;

export const filmPoint = (column: number, row: number): FilmPoint => ({ column, row }) as FilmPoint;
export const planePoint = (x: number, y: number): PlanePoint => ({ x, y }) as PlanePoint;
export const screenPoint = (x: number, y: number): ScreenPoint => ({ x, y }) as ScreenPoint;
