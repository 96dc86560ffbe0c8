import { expect, it } from 'vitest';
import { type IccProfile, readIcc } from '../../../src/film/picture/icc.ts';
import { greyThrough } from '../../../src/film/picture/to-srgb.ts';
import { itNeeds } from '../../outside-tools.ts';
import {
  colourProfile,
  curv,
  GAMMA_563,
  greyProfile,
  para,
  SRGB_COLORANTS,
  SRGB_CURVE,
  srgbProfile,
  throughLcms,
  wideProfile,
} from './icc-file.ts';

function read(bytes: Uint8Array): IccProfile {
  const profile = readIcc(bytes);
  if (!profile.ok) throw new Error(profile.error.kind);
  return profile.value;
}

function greyOf(bytes: Uint8Array, greatest = 255) {
  const grey = greyThrough(read(bytes), greatest);
  if (grey === null) throw new Error('the profile was taken to be sRGB');
  return grey;
}

const levels = Array.from({ length: 256 }, (_, level) => level);

/** The curves that a profile can have (ICC.1:2022 10.6 and 10.18), with parameters of our own. */
const CURVES = [
  ['the identity', curv()],
  ['an exponent of 1.8', curv(Math.round(1.8 * 256))],
  ['an exponent of 2.19921875', GAMMA_563],
  ['a table of two', curv(0, 65_535)],
  ['a table of five', curv(0, 2_000, 11_000, 32_000, 65_535)],
  ['a table that starts above black', curv(900, 9_000, 60_000)],
  ['function 0', para(0, 1.8)],
  ['function 1', para(1, 2.2, 1.1, -0.1)],
  ['function 2', para(2, 2.2, 0.9, -0.05, 0.08)],
  ['function 3', para(3, 3, 0.86, 0.14, 0.11, 0.08)],
  ['function 4', para(4, 2.4, 0.94, 0.05, 0.08, 0.04, 0.01, 0.006)],
] as const;

itNeeds('transicc').each(CURVES)('a grey profile of %s, as Little CMS turns it to sRGB', (_, curve) => {
  const profile = greyProfile(curve);
  const grey = greyOf(profile);
  throughLcms(
    profile,
    levels.map((level) => [level]),
  ).forEach(([expected], level) => {
    // Half a grey is what rounding takes.
    expect(Math.abs(grey(level, level, level) - expected)).toBeLessThanOrEqual(0.51);
  });
});

const COLOURS = [0, 20, 64, 128, 190, 255].flatMap((red) =>
  [0, 31, 100, 180, 255].flatMap((green) => [0, 50, 140, 255].map((blue) => [red, green, blue] as const)),
);

/** Y = 0.299 R + 0.587 G + 0.114 B (PS3.3 C.7.6.3.1.2). */
const luminance = ([red, green, blue]: readonly number[]) => 0.299 * red! + 0.587 * green! + 0.114 * blue!;

/** The primaries of SMPTE RP 431-2 with a D65 white, turned to D50; from memory. */
const CINEMA = [
  [0.51512, 0.2412, -0.00105],
  [0.29198, 0.69225, 0.04189],
  [0.1571, 0.06657, 0.78407],
] as const;

itNeeds('transicc').each([
  ['wide primaries with an exponent', wideProfile()],
  [
    'primaries of the cinema with the curve of sRGB',
    colourProfile(CINEMA, [SRGB_CURVE, SRGB_CURVE, SRGB_CURVE]),
  ],
  [
    'the primaries of sRGB with three curves',
    colourProfile(SRGB_COLORANTS, [curv(461), GAMMA_563, curv(0, 9_000, 65_535)]),
  ],
] as const)('a colour profile of %s, as Little CMS turns it to sRGB', (_, profile) => {
  const grey = greyOf(profile);
  const expected = throughLcms(profile, COLOURS).map(luminance);
  COLOURS.forEach((colour, i) => {
    expect(Math.abs(grey(...colour) - expected[i]!), `${colour}`).toBeLessThanOrEqual(1.01);
  });
});

it('keeps 16 bits', () => {
  // IEC 61966-2-1: the light of half the values of an exponent of 2 is 1/4; 1.055 (1/4)^(1/2.4) − 0.055 = 0.537099.
  const grey = greyOf(greyProfile(curv(512)), 65_535);
  expect(grey(32_768, 32_768, 32_768)).toBeCloseTo(0.537_099 * 65_535, -0.5);
  // Dark: (655 / 65,535)² = 0.0000999; times 12.92 = 0.00129.
  expect(grey(655, 655, 655)).toBe(Math.round(12.92 * (655 / 65_535) ** 2 * 65_535));
});

it('leaves a neutral colour neutral and white white', () => {
  const grey = greyOf(wideProfile());
  expect(grey(0, 0, 0)).toBe(0);
  expect(grey(255, 255, 255)).toBe(255);
});

it.each([
  ['as a function', srgbProfile()],
  ['grey', greyProfile(SRGB_CURVE)],
  [
    'as a table of 1,024',
    greyProfile(
      curv(
        ...Array.from({ length: 1024 }, (_, i) => {
          // IEC 61966-2-1, from stored to light.
          const stored = i / 1023;
          const light = stored <= 0.04045 ? stored / 12.92 : ((stored + 0.055) / 1.055) ** 2.4;
          return Math.round(65_535 * light);
        }),
      ),
    ),
  ],
])('changes nothing for sRGB %s', (_, profile) => {
  expect(greyThrough(read(profile), 255)).toBeNull();
  expect(greyThrough(read(profile), 65_535)).toBeNull();
});

itNeeds('transicc')('knows the primaries of sRGB that Little CMS has', () => {
  // Were they others, its sRGB would not give back what went in.
  throughLcms(srgbProfile(), COLOURS).forEach((colour, i) => {
    colour.forEach((value, j) => {
      expect(Math.abs(value - COLOURS[i]![j]!)).toBeLessThan(0.6);
    });
  });
});
