import { cdp } from 'vitest/browser';

/**
 * Input and screen as the browser itself makes them, through the DevTools protocol: real pointer events with
 * capture, real touches, and a real device pixel ratio.
 */

interface Protocol {
  send(method: string, parameters: object): Promise<unknown>;
}
const protocol = (): Protocol => cdp() as unknown as Protocol;

/** Tests run in a frame of the runner's page; the protocol counts from the corner of that page. */
function pagePoint(x: number, y: number): { readonly x: number; readonly y: number } {
  const frame = window.frameElement?.getBoundingClientRect();
  const factor = frame === undefined ? 1 : frame.width / window.innerWidth;
  return { x: (frame?.left ?? 0) + x * factor, y: (frame?.top ?? 0) + y * factor };
}

type Button = 'none' | 'left' | 'middle' | 'right';
const HELD: Readonly<Record<Button, number>> = { none: 0, left: 1, right: 2, middle: 4 };

const mouse = (type: string, x: number, y: number, button: Button, more: object = {}): Promise<unknown> =>
  protocol().send('Input.dispatchMouseEvent', {
    type,
    ...pagePoint(x, y),
    button,
    buttons: HELD[button],
    clickCount: type === 'mouseMoved' ? 0 : 1,
    ...more,
  });

export const mouseMove = (x: number, y: number, held: Button = 'none') => mouse('mouseMoved', x, y, held);
export const mouseDown = (x: number, y: number, button: Button = 'left') =>
  mouse('mousePressed', x, y, button);
export const mouseUp = (x: number, y: number, button: Button = 'left') =>
  mouse('mouseReleased', x, y, button);
export const wheel = (x: number, y: number, deltaY: number) =>
  mouse('mouseWheel', x, y, 'none', { deltaX: 0, deltaY });
export const penMove = (x: number, y: number, held: Button) =>
  mouse('mouseMoved', x, y, held, { pointerType: 'pen' });
export const penDown = (x: number, y: number) => mouse('mousePressed', x, y, 'left', { pointerType: 'pen' });
export const penUp = (x: number, y: number) => mouse('mouseReleased', x, y, 'left', { pointerType: 'pen' });

/** Presses at the first point, moves through the others, and lets go at the last. */
export async function mouseDrag(...points: readonly (readonly [number, number])[]): Promise<void> {
  const [first, ...rest] = points;
  const last = points.at(-1);
  if (first === undefined || last === undefined) return;
  await mouseMove(...first);
  await mouseDown(...first);
  for (const point of rest) await mouseMove(...point, 'left');
  await mouseUp(...last);
}

/** Where every finger is now; an empty list lifts them all. */
export const touch = (
  type: 'touchStart' | 'touchMove' | 'touchEnd' | 'touchCancel',
  ...fingers: readonly (readonly [number, number])[]
): Promise<unknown> =>
  protocol().send('Input.dispatchTouchEvent', {
    type,
    touchPoints: fingers.map(([x, y], id) => ({ ...pagePoint(x, y), id })),
  });

export const setScreen = (width: number, height: number, deviceScaleFactor: number): Promise<unknown> =>
  protocol().send('Emulation.setDeviceMetricsOverride', { width, height, deviceScaleFactor, mobile: false });

export const resetScreen = (): Promise<unknown> =>
  protocol().send('Emulation.clearDeviceMetricsOverride', {});
