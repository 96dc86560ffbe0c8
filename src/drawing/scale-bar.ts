import { screenPoint } from '../geometry/units.ts';
import type { DrawCommand } from './draw-command.ts';
import { INK, type StrokeScale } from './strokes.ts';

/** CSS pixels. */
const LONGEST = 140;
const INSET = 18;
const END_STROKE = 5;

/** A round length, 1, 2 or 5 times a power of ten millimetres, and how long it is on screen. */
export interface ScaleBar {
  readonly lengthMm: number;
  readonly pixels: number;
}

/** The longest round length that is no longer on screen than `longest` pixels. */
export function roundLength(pixelsPerMm: number, longest: number): ScaleBar {
  const most = longest / pixelsPerMm;
  const power = 10 ** Math.floor(Math.log10(most));
  const leading = [5, 2, 1].find((digit) => digit * power <= most) ?? 1;
  const lengthMm = leading * power;
  return { lengthMm, pixels: lengthMm * pixelsPerMm };
}

/** The round length, mm, that suits a film of a width in CSS pixels best. */
export const barLengthMm = (pixelsPerMm: number, width: number, { text }: StrokeScale): number =>
  roundLength(pixelsPerMm, Math.min(LONGEST, width / 3) * text).lengthMm;

/**
 * The bar in the bottom left corner. For films whose millimetres are known only.
 *
 * @param lengthMm - Given where films stand side by side, whose bars are to say the same.
 */
export function paintScaleBar(
  pixelsPerMm: number,
  size: { readonly width: number; readonly height: number },
  scale: StrokeScale,
  lengthMm = barLengthMm(pixelsPerMm, size.width, scale),
): DrawCommand[] {
  const pixels = lengthMm * pixelsPerMm;
  const y = size.height - INSET;
  const ends = [INSET, INSET + pixels] as const;
  const stroke = { colour: INK, width: 1.5 * scale.stroke, dash: [], cap: 'butt' } as const;
  const upright = (x: number): DrawCommand => ({
    kind: 'line',
    points: [screenPoint(x, y - END_STROKE * scale.stroke), screenPoint(x, y + END_STROKE * scale.stroke)],
    ...stroke,
  });
  return [
    { kind: 'line', points: ends.map((x) => screenPoint(x, y)), ...stroke },
    upright(ends[0]),
    upright(ends[1]),
    {
      kind: 'text',
      at: screenPoint(INSET, y - 16 * scale.text),
      align: 'left',
      // 0.1 + 0.2 has more digits than it should; three are enough for any film.
      runs: [
        {
          text: `${Number(lengthMm.toPrecision(3))}\u2009mm`,
          face: 'sans',
          size: 14 * scale.text,
          colour: INK,
        },
      ],
    },
  ];
}
