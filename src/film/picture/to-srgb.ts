import { luminance } from '../luminance.ts';
import { type IccProfile, interpolated, type ToneCurve } from './icc.ts';

/** The grey of a stored colour, as a whole stored value; of a grey picture, of three equal ones. */
export type GreyOf = (red: number, green: number, blue: number) => number;

/** IEC 61966-2-1: the sRGB value, 0 to 1, of a share of light, 0 to 1. */
const encoded: ToneCurve = (light) =>
  light <= 0.003_130_8 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;

/** The same, near enough for 16 bits (within a tenth of a step) and quicker than powers for each pixel. */
const quicklyEncoded = interpolated(Float64Array.from({ length: 16_385 }, (_, i) => encoded(i / 16_384)));

/** X, Y, Z of sRGB's red, green and blue (IEC 61966-2-1), turned to D50 by the linear Bradford transform (ICC.1:2022 annex E). */
const SRGB_COLORANTS = [
  [0.436_074_7, 0.222_504_5, 0.013_932_2],
  [0.385_064_9, 0.716_878_6, 0.097_104_5],
  [0.143_080_4, 0.060_616_9, 0.714_173_3],
] as const;

/** The inverse: from X, Y, Z under D50 to linear sRGB. */
const TO_LINEAR_SRGB = [
  [3.133_856_1, -1.616_866_7, -0.490_614_6],
  [-0.978_768_4, 1.916_141_5, 0.033_454],
  [0.071_945_3, -0.228_991_4, 1.405_242_7],
] as const;

/** A profile is sRGB where it differs by no more than one grey of 255, and its primaries by 1 %. */
const SAME_CURVE = 1 / 255;
const SAME_PRIMARIES = 0.01;

const isSrgbCurve = (curve: ToneCurve) =>
  Array.from({ length: 256 }, (_, i) => i / 255).every(
    (stored) => Math.abs(encoded(curve(stored)) - stored) <= SAME_CURVE,
  );

/** Rows red, green and blue of linear sRGB for full red, green and blue of the profile. */
const toLinearSrgb = (colorants: Extract<IccProfile, { kind: 'colour' }>['colorants']) =>
  TO_LINEAR_SRGB.map(([x, y, z]) => colorants.map((xyz) => x * xyz[0] + y * xyz[1] + z * xyz[2]));

/** A profile that has one curve and the primaries of sRGB. */
export const withCurve = (kind: IccProfile['kind'], curve: ToneCurve): IccProfile =>
  kind === 'grey' ? { kind, curve } : { kind, curves: [curve, curve, curve], colorants: SRGB_COLORANTS };

/** A curve at every stored value from 0 to the greatest. */
const tabulated = (curve: ToneCurve, greatest: number) =>
  Float64Array.from({ length: greatest + 1 }, (_, stored) => curve(stored / greatest));

/**
 * The grey of each colour of a picture with a profile: that of the same picture turned to sRGB, colours outside
 * it clipped, at its own depth. Light is taken relative to white (relative colorimetric).
 *
 * @param greatest - The greatest stored value, 255 or 65,535.
 * @returns null for a profile that is sRGB: what a picture without one is taken to be, so nothing changes.
 */
export function greyThrough(profile: IccProfile, greatest: number): GreyOf | null {
  const step = (light: number) => Math.round(greatest * quicklyEncoded(light));
  if (profile.kind === 'grey') {
    if (isSrgbCurve(profile.curve)) return null;
    const greys = tabulated(profile.curve, greatest).map(step);
    return (grey) => greys[grey] as number;
  }
  const matrix = toLinearSrgb(profile.colorants);
  const isSrgb =
    profile.curves.every(isSrgbCurve) &&
    matrix.every((row, i) => row.every((part, j) => Math.abs(part - (i === j ? 1 : 0)) <= SAME_PRIMARIES));
  if (isSrgb) return null;
  const [reds, greens, blues] = profile.curves.map((curve) => tabulated(curve, greatest)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const [rr, rg, rb, gr, gg, gb, br, bg, bb] = matrix.flat() as [
    ...[number, number, number],
    ...[number, number, number],
    ...[number, number, number],
  ];
  return (red, green, blue) => {
    const r = reds[red] as number;
    const g = greens[green] as number;
    const b = blues[blue] as number;
    return luminance(
      step(rr * r + rg * g + rb * b),
      step(gr * r + gg * g + gb * b),
      step(br * r + bg * g + bb * b),
    );
  };
}
