import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Film } from '../../src/film/film.ts';
import { displayLut, type Light } from '../../src/film/grey-scale.ts';
import { defaultLight, lightAt, slidersOf } from '../../src/film/light.ts';
import { dicomFile, type Element, type FilmOptions, filmElements, voiTable } from './dicom-file.ts';
import { openFilm } from './open.ts';

const film = (options: FilmOptions) => openFilm(dicomFile(filmElements(options)));
const decimal = (tag: Element['tag'], value: string): Element => ({ tag, vr: 'DS', value });
const rows = 40;
const columns = 50;
const ramp = Array.from({ length: rows * columns }, (_, i) => 1000 + i);

const greyOf = (read: Film, light: Light, stored: number) => {
  const lut = displayLut(read.grey, light, read.storedMin, read.storedMax);
  return lut.values[stored - lut.firstStored]!;
};

const boneTable = voiTable(
  [2000, 1000, 12],
  Array.from({ length: 2000 }, (_, i) => i * 2),
  { tag: '0028,3003', vr: 'LO', value: 'BONE' },
);

/** As `boneTable`, the other way round: the least value is white. */
const fallingTable = voiTable(
  [2000, 1000, 12],
  Array.from({ length: 2000 }, (_, i) => 4000 - i * 2),
);

describe('defaultLight', () => {
  it('takes the first window of several, and lists them with their explanations', async () => {
    const read = await film({
      extra: [
        decimal('0028,1050', '500\\1000'),
        decimal('0028,1051', '400\\100'),
        { tag: '0028,1055', vr: 'LO', value: 'NORMAL\\HARDER' },
      ],
    });
    expect(read.grey.windows.map(({ explanation }) => explanation)).toEqual(['NORMAL', 'HARDER']);
    expect(defaultLight(read).shown).toEqual({ kind: 'window', center: 500, width: 400, function: 'LINEAR' });
  });

  it('takes a VOI table where there is no window', async () => {
    const read = await film({ extra: [boneTable] });
    expect(defaultLight(read).shown).toEqual({ kind: 'voi-table', index: 0 });
    expect(read.grey.voiTables[0]!.explanation).toBe('BONE');
  });

  it('drops a window that cannot be used, says so, and shows the film all the same', async () => {
    const read = await film({
      rows,
      columns,
      samples: ramp,
      extra: [decimal('0028,1050', 'NaN'), decimal('0028,1051', '400')],
    });
    expect(read.grey.windows).toEqual([]);
    expect(read.facts.notes).toEqual([
      'Window 1 of the file cannot be used: its centre or width is no usable number. Check the brightness and contrast before placing anything.',
    ]);
    expect(greyOf(read, defaultLight(read), 1010)).toBeLessThan(3);
    expect(greyOf(read, defaultLight(read), 2990)).toBeGreaterThan(252);
  });

  it('keeps stray values from flattening a raw film', async () => {
    // 2,000 pixels, of which 5 (0.25 %) are white specks; the rest runs from 1,000 to 2,994.
    const samples = ramp.map((value, i) => (i >= 1995 ? 65_535 : value));
    const read = await film({ rows, columns, bitsStored: 16, samples });
    const light = defaultLight(read);
    // Half way along the ramp is near half way from black to white.
    expect(greyOf(read, light, 2000)).toBeGreaterThan(120);
    expect(greyOf(read, light, 2000)).toBeLessThan(136);
    expect(greyOf(read, light, 65_535)).toBe(255);
  });

  it('shows a picture as it is stored', async () => {
    const read = await film({
      bitsAllocated: 8,
      photometric: 'RGB',
      samplesPerPixel: 3,
      samples: [0, 50, 128, 200, 254, 255].flatMap((grey) => [grey, grey, grey]),
    });
    const shown = [0, 50, 128, 200, 254, 255].map((stored) => greyOf(read, defaultLight(read), stored));
    expect(shown).toEqual([0, 50, 128, 200, 254, 255]);
  });

  it('says when a table claims 16 bits and uses 12', async () => {
    const read = await film({ extra: [voiTable([3, 0, 16], [0, 2000, 4000])] });
    expect(read.grey.voiTables[0]!.bitsPerEntry).toBe(12);
    expect(read.facts.notes.join(' ')).toMatch(/says 16 bits and uses 12/);
  });
});

describe('sliders', () => {
  const kinds: readonly [string, FilmOptions][] = [
    ['a window', { extra: [decimal('0028,1050', '2000'), decimal('0028,1051', '1500')] }],
    ['MONOCHROME1', { photometric: 'MONOCHROME1' }],
    ['a VOI table', { extra: [boneTable] }],
    ['a VOI table that falls', { extra: [fallingTable] }],
    ['no window', {}],
    ['a falling rescale', { extra: [decimal('0028,1053', '-1'), decimal('0028,1052', '0')] }],
  ];
  const half = { brightness: 0.5, contrast: 0.5 };

  it.each(kinds)('stand in the middle as the film came: %s', async (_, options) => {
    const read = await film({ rows, columns, samples: ramp, ...options });
    expect(lightAt(read, half, false)).toEqual(defaultLight(read));
    expect(slidersOf(read, defaultLight(read))).toEqual(half);
  });

  it.each(kinds)('come back from the light they made, and brighter is lighter: %s', async (_, options) => {
    const read = await film({ rows, columns, samples: ramp, ...options });
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, share, fc.boolean(), (brightness, contrast, other, negative) => {
        const light = lightAt(read, { brightness, contrast }, negative);
        const back = slidersOf(read, light);
        expect(back.brightness).toBeCloseTo(brightness, 9);
        expect(back.contrast).toBeCloseTo(contrast, 9);
        const lighter = lightAt(read, { brightness: Math.max(brightness, other), contrast }, negative);
        const middle = 2000;
        if (light.shown.kind === 'window' && lighter.shown.kind === 'window') {
          expect(greyOf(read, lighter, middle)).toBeGreaterThanOrEqual(greyOf(read, light, middle));
        }
      }),
      { seed: 20_251_125, numRuns: 60 },
    );
  });

  it.each([
    ['rises', boneTable],
    ['falls', fallingTable],
  ])(
    'leave a film nearly as its VOI table shows it at the first small move: a table that %s',
    async (_, table) => {
      const read = await film({ rows, columns, samples: ramp, extra: [table] });
      for (const negative of [false, true]) {
        const moved = lightAt(read, { brightness: 0.5, contrast: 0.501 }, negative);
        expect(moved.shown.kind).toBe('window');
        expect(moved.negative).toBe(negative);
        for (const stored of [1000, 1250, 1500, 2000, 2500, 2999]) {
          const asItCame = greyOf(read, { ...defaultLight(read), negative }, stored);
          // The window leaves out 2.5 % at each end of the greys of the table, 6 of 255.
          expect(Math.abs(greyOf(read, moved, stored) - asItCame), `stored ${stored}`).toBeLessThanOrEqual(8);
        }
      }
    },
  );
});
