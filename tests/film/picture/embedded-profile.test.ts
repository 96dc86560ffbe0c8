import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { itNeeds } from '../../outside-tools.ts';
import { sharedFilms } from '../../shared-films.ts';
import { openFilm, storedValues } from '../open.ts';
import {
  colourProfile,
  curv,
  greyProfile,
  iccFile,
  SRGB_COLORANTS,
  srgbProfile,
  throughLcms,
  wideProfile,
} from './icc-file.ts';
import { COLUMNS, colourJpeg, greyAt, greyJpeg, inPieces } from './jpegs.ts';
import { iccp, pngFile } from './png-file.ts';

type Extra = NonNullable<Parameters<typeof pngFile>[0]['extra']>;

const gama = (value: number): Extra[number] => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return ['gAMA', [...bytes]];
};

const GREYS = [0, 10, 50, 100, 150, 200, 230, 255];
const greyPng = (...extra: Extra) =>
  pngFile({ columns: 8, rows: 1, depth: 8, colourType: 0, lines: [GREYS], extra });

const COLOURS = [
  [200, 30, 90],
  [10, 220, 40],
  [30, 60, 240],
  [120, 120, 120],
] as const;
const colourPng = (...extra: Extra) =>
  pngFile({ columns: 4, rows: 1, depth: 8, colourType: 2, lines: [COLOURS.flat()], extra });

/** Y = 0.299 R + 0.587 G + 0.114 B (PS3.3 C.7.6.3.1.2). */
const luminance = ([red, green, blue]: readonly number[]) => 0.299 * red! + 0.587 * green! + 0.114 * blue!;

function expectWithin(found: readonly number[], expected: readonly number[], most: number): void {
  expect(found.length).toBe(expected.length);
  found.forEach((value, i) => {
    expect(Math.abs(value - expected[i]!), `pixel ${i}`).toBeLessThanOrEqual(most);
  });
}

const GAMMA_18 = greyProfile(curv(461));
const APPLIED = ['The greys were changed to those of sRGB, as the picture’s colour profile asks.'];

describe('a picture with a colour profile', () => {
  itNeeds('transicc')('grey PNG: as Little CMS turns it to sRGB', async () => {
    const film = await openFilm(greyPng(iccp(GAMMA_18)));
    const expected = throughLcms(
      GAMMA_18,
      GREYS.map((grey) => [grey]),
    );
    expectWithin(storedValues(film), expected.map(luminance), 1);
    expect(film.facts).toMatchObject({ wasColour: false, notes: APPLIED });
  });

  itNeeds('transicc')('colour PNG', async () => {
    const film = await openFilm(colourPng(iccp(wideProfile())));
    expectWithin(storedValues(film), throughLcms(wideProfile(), COLOURS).map(luminance), 1.01);
    expect(film.facts).toMatchObject({ wasColour: true, notes: APPLIED });
  });

  itNeeds('transicc')('PNG with a palette', async () => {
    const film = await openFilm(
      pngFile({
        columns: 4,
        rows: 1,
        depth: 8,
        colourType: 3,
        lines: [[0, 1, 2, 3]],
        extra: [iccp(wideProfile()), ['PLTE', COLOURS.flat()]],
      }),
    );
    expectWithin(storedValues(film), throughLcms(wideProfile(), COLOURS).map(luminance), 1.01);
  });

  itNeeds('transicc')('PNG with alpha, laid over black after the profile', async () => {
    const lines = [[200, 255, 200, 128, 200, 0]];
    const parts = { columns: 3, rows: 1, depth: 8, colourType: 4, lines, extra: [iccp(GAMMA_18)] } as const;
    const [[grey]] = throughLcms(GAMMA_18, [[200]]) as [readonly [number, number, number]];
    expectWithin(storedValues(await openFilm(pngFile(parts))), [grey, (grey * 128) / 255, 0], 1);
  });

  itNeeds('transicc')('PNG of 16 bits, to one of 65,536', async () => {
    const stored = [300, 4_000, 30_000, 60_000];
    const lines = [stored.flatMap((value) => [value >> 8, value & 255])];
    const film = await openFilm(
      pngFile({ columns: 4, rows: 1, depth: 16, colourType: 0, lines, extra: [iccp(GAMMA_18)] }),
    );
    expect(film.grey.bitsStored).toBe(16);
    // Little CMS prints four places of 255: 0.0001 is a fortieth of a step.
    const expected = throughLcms(
      GAMMA_18,
      stored.map((value) => [value / 257]),
    );
    expectWithin(
      storedValues(film),
      expected.map(([grey]) => 257 * grey),
      1,
    );
  });

  itNeeds('transicc').each([
    ['in one piece', [1]],
    ['in three pieces', [1, 2, 3]],
    ['in three pieces out of order', [3, 1, 2]],
  ])('grey JPEG %s', async (_, order) => {
    const film = await openFilm(inPieces(greyJpeg(), GAMMA_18, order));
    const first = Array.from({ length: COLUMNS }, (_, x) => greyAt(x, 0));
    const expected = throughLcms(
      GAMMA_18,
      first.map((grey) => [grey]),
    );
    expectWithin(storedValues(film).slice(0, COLUMNS), expected.map(luminance), 1);
    expect(film.facts.notes).toEqual(APPLIED);
  });

  itNeeds('transicc')('colour JPEG, within the loss of the format', async () => {
    const film = await openFilm(inPieces(colourJpeg(), wideProfile(), [1]));
    const first = Array.from({ length: COLUMNS }, (_, x) => [greyAt(x, 0), 255 - greyAt(x, 0), 60]);
    // Up to 2 in a channel is lost (read-jpeg.test.ts), which the profile can double.
    expectWithin(storedValues(film).slice(0, COLUMNS), throughLcms(wideProfile(), first).map(luminance), 4);
    expect(film.facts).toMatchObject({ wasColour: true, notes: APPLIED });
  });
});

describe('a picture that is sRGB', () => {
  const same = async (tagged: Uint8Array, plain: Uint8Array) => {
    const film = await openFilm(tagged);
    // Two films of many pixels: where they part says more than a list of all values, and is printed at once.
    const [values, expected] = [storedValues(film), storedValues(await openFilm(plain))];
    expect(values.length).toBe(expected.length);
    expect(values.findIndex((value, i) => value !== expected[i])).toBe(-1);
    expect(film.facts.notes).toEqual([]);
  };

  it('is the film that it is without a profile', async () => {
    await same(colourPng(iccp(srgbProfile())), colourPng());
    await same(inPieces(colourJpeg(), srgbProfile(), [1, 2]), colourJpeg());
    await same(greyPng(iccp(srgbProfile())), greyPng());
    await same(greyPng(['sRGB', [0]], gama(100_000)), greyPng());
    await same(greyPng(gama(45_455)), greyPng());
  });

  const hands = sharedFilms('hands');
  it.runIf(hands !== null || process.env.CI === 'true')('also with the profile of a real film', async () => {
    const tagged = readFileSync(join(hands!, '01_16_X-ray_of_Hand.jpg'));
    const at = tagged.indexOf('ICC_PROFILE\0');
    expect(at).toBeGreaterThan(0);
    // The same file with its APP2 segment under a name that is none.
    const plain = Buffer.from(tagged);
    plain.write('ICC_PROFILX', at, 'latin1');
    await same(tagged, plain);
  });
});

describe('a PNG with a gamma', () => {
  it('is turned to the curve of sRGB', async () => {
    // gAMA 100,000: light as stored. 100 / 255 = 0.392157; 1.055 · 0.392157^(1/2.4) − 0.055 = 0.65910, of 255 168.07.
    const film = await openFilm(greyPng(gama(100_000)));
    expect(storedValues(film)[3]).toBe(168);
    expect(film.facts.notes).toEqual([
      'The greys were changed to those of sRGB, as the picture’s gamma (gAMA) asks.',
    ]);
  });

  it('is so in colour too, each value by itself', async () => {
    // As above, each by IEC 61966-2-1: 120 → 182.49; 200, 30, 90 → 229.1, 96.3, 160.3, of luminance 143.3.
    const film = await openFilm(colourPng(gama(100_000)));
    expect(storedValues(film)[3]).toBe(182);
    expect(storedValues(film)[0]).toBe(143);
  });

  it('is overruled by a profile', async () => {
    const both = await openFilm(greyPng(gama(100_000), iccp(GAMMA_18)));
    expect(storedValues(both)).toEqual(storedValues(await openFilm(greyPng(iccp(GAMMA_18)))));
  });
});

describe('a profile that is not applied', () => {
  const wrongSum = (() => {
    const png = Buffer.from(greyPng(iccp(GAMMA_18)));
    const at = png.indexOf('iCCP');
    // The checksum stands behind the data.
    const sum = at + 4 + png.readUInt32BE(at - 4);
    png.writeUInt8(png.readUInt8(sum) ^ 1, sum);
    return png;
  })();
  const table = colourProfile(SRGB_COLORANTS, [curv(512), curv(512), curv(512)], { A2B0: Buffer.alloc(40) });

  it.each([
    ['a PNG chunk whose checksum is wrong', wrongSum, greyPng(), 'damaged'],
    [
      'a PNG profile that does not inflate',
      greyPng(['iCCP', [0x61, 0, 0, 1, 2, 3, 4]]),
      greyPng(),
      'damaged',
    ],
    [
      'a PNG profile that inflates without end',
      greyPng(iccp(Buffer.alloc(80_000_000))),
      greyPng(),
      'damaged',
    ],
    ['a PNG profile cut short', greyPng(iccp(GAMMA_18.subarray(0, 140))), greyPng(), 'damaged'],
    ['a gamma of 0', greyPng(gama(0)), greyPng(), 'damaged'],
    ['a JPEG profile with a piece missing', inPieces(greyJpeg(), GAMMA_18, [1, 3], 3), greyJpeg(), 'damaged'],
    ['a JPEG profile with a piece twice', inPieces(greyJpeg(), GAMMA_18, [1, 1], 2), greyJpeg(), 'damaged'],
    ['a table', colourPng(iccp(table)), colourPng(), 'made of a table of colours (A2B0)'],
    [
      'printing inks',
      inPieces(colourJpeg(), iccFile({ space: 'CMYK', tags: {} }), [1]),
      colourJpeg(),
      'for printing inks (CMYK)',
    ],
    [
      'a colour profile on a grey picture',
      greyPng(iccp(wideProfile())),
      greyPng(),
      'for colour, and the picture is grey',
    ],
    [
      'a grey profile on a colour picture',
      colourPng(iccp(GAMMA_18)),
      colourPng(),
      'for grey, and the picture is in colour',
    ],
  ])('%s: the film is as without it, and says so', async (_, tagged, plain, why) => {
    const film = await openFilm(tagged);
    // Two films of many pixels: where they part says more than a list of all values, and is printed at once.
    const [values, expected] = [storedValues(film), storedValues(await openFilm(plain))];
    expect(values.length).toBe(expected.length);
    expect(values.findIndex((value, i) => value !== expected[i])).toBe(-1);
    expect(film.facts.notes).toEqual([
      `The picture’s colour profile was not applied: it is ${why}. The greys are as stored, and may look lighter or darker than meant.`,
    ]);
  });
});
