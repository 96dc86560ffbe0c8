import * as cornerstone from 'cornerstone-core';
import type { Film } from '../../src/film/film.ts';

/** The film shown by cornerstone's own renderer through a window, as a yardstick. */
export function cornerstoneAlone(
  film: Film,
  { width, height }: { readonly width: number; readonly height: number },
  window: { readonly center: number; readonly width: number },
) {
  const host = document.createElement('div');
  const element = document.createElement('div');
  Object.assign(element.style, { width: `${width}px`, height: `${height}px` });
  host.append(element);
  document.body.append(host);
  cornerstone.enable(element);
  const image: Partial<cornerstone.Image> = {
    imageId: 'alone',
    columns: film.columns,
    rows: film.rows,
    width: film.columns,
    height: film.rows,
    color: false,
    invert: false,
    minPixelValue: film.storedMin,
    maxPixelValue: film.storedMax,
    slope: 1,
    intercept: 0,
    windowCenter: window.center,
    windowWidth: window.width,
    getPixelData: () => film.levels[0]!.pixels as unknown as number[],
  };
  cornerstone.displayImage(element, image as cornerstone.Image);
  const remove = () => {
    cornerstone.disable(element);
    host.remove();
  };
  return { element, remove };
}
