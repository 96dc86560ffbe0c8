import * as cornerstone from 'cornerstone-core';

/** Every canvas of an element read back, so that drawing which the browser puts off is counted too. */
export function readBack(element: HTMLElement): void {
  for (const canvas of element.querySelectorAll('canvas')) {
    canvas.getContext('2d', { desynchronized: true })!.getImageData(0, 0, 1, 1);
  }
}

/**
 * Milliseconds of each frame: the change itself, and from the start of cornerstone's drawing to the pixels of every
 * canvas, read back.
 */
export async function frameTimes(
  element: HTMLElement,
  frames: number,
  change: (frame: number) => void,
): Promise<readonly number[]> {
  const times: number[] = [];
  let begun = 0;
  let changing = 0;
  let finish: () => void = () => undefined;
  const begin = () => {
    begun = performance.now();
  };
  const end = () => {
    readBack(element.parentElement!);
    times.push(changing + performance.now() - begun);
    finish();
  };
  element.addEventListener(cornerstone.EVENTS.PRE_RENDER, begin);
  element.addEventListener(cornerstone.EVENTS.IMAGE_RENDERED, end);
  for (let frame = 0; frame < frames; frame++) {
    const ended = new Promise<void>((resolve) => {
      finish = resolve;
    });
    const before = performance.now();
    change(frame);
    changing = performance.now() - before;
    await ended;
  }
  element.removeEventListener(cornerstone.EVENTS.PRE_RENDER, begin);
  element.removeEventListener(cornerstone.EVENTS.IMAGE_RENDERED, end);
  return times;
}
