import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { GreyScale, LookupTable, VoiFunction } from '../../src/film/film.ts';
import { displayLut, type Light, windowed } from '../../src/film/grey-scale.ts';
import { defaultLight } from '../../src/film/light.ts';
import { expectDcmtk, itWithDcmtk, renderedByDcmtk } from './dcmtk.ts';
import { dicomFile, type Element, type FilmOptions, filmElements, SYNTAX, voiTable } from './dicom-file.ts';
import { openFilm } from './open.ts';

const plain: GreyScale = {
  bitsStored: 12,
  signed: false,
  photometric: 'MONOCHROME2',
  modality: { kind: 'rescale', slope: 1, intercept: 0 },
  windows: [],
  voiTables: [],
  padding: null,
};

const window = (center: number, width: number, kind: VoiFunction = 'LINEAR', negative = false): Light => ({
  shown: { kind: 'window', center, width, function: kind },
  negative,
});

const fullRange: Light = { shown: { kind: 'full-range' }, negative: false };

/**
 * Computed by hand from the formulas of PS3.3 C.11.2.1.2.1 (LINEAR), C.11.2.1.3.2 (LINEAR_EXACT) and
 * C.11.2.1.3.1 (SIGMOID) with ymin 0 and ymax 255; c = 2048, w = 4096 is the standard's own example of LINEAR:
 * x ≤ 0 gives ymin, x > 4095 ymax, between them ((x − 2047.5) / 4095 + 0.5) · 255.
 */
const worked = [
  { c: 2048, w: 4096, x: 0, linear: 0, exact: 0, sigmoid: 30.3967 },
  { c: 2048, w: 4096, x: 2047, linear: 127.4689, exact: 127.4377, sigmoid: 127.4377 },
  { c: 2048, w: 4096, x: 2048, linear: 127.5311, exact: 127.5, sigmoid: 127.5 },
  { c: 2048, w: 4096, x: 3072, linear: 191.2967, exact: 191.25, sigmoid: 186.4199 },
  { c: 2048, w: 4096, x: 4095, linear: 255, exact: 254.9377, sigmoid: 224.5771 },
  { c: 550, w: 1024, x: 549.5, linear: 127.5, exact: 127.3755, sigmoid: 127.3755 },
  { c: 550, w: 1024, x: 550, linear: 127.6246, exact: 127.5, sigmoid: 127.5 },
  { c: 550, w: 1024, x: 806, linear: 191.437, exact: 191.25, sigmoid: 186.4199 },
  { c: 550, w: 1024, x: 38, linear: 0, exact: 0, sigmoid: 30.3967 },
  { c: 550, w: 1024, x: 1061, linear: 255, exact: 254.751, sigmoid: 224.4985 },
  { c: 512, w: 1, x: 511.5, linear: 0, exact: 0, sigmoid: 30.3967 },
  { c: 512, w: 1, x: 512, linear: 255, exact: 127.5, sigmoid: 127.5 },
  { c: 300, w: 2, x: 299.5, linear: 127.5, exact: 63.75, sigmoid: 68.5801 },
  { c: 127.5, w: 255, x: 128.5, linear: 129.0059, exact: 128.5, sigmoid: 128.5 },
];

describe('window functions', () => {
  it.each(worked)('c $c, w $w, x $x', ({ c, w, x, linear, exact, sigmoid }) => {
    const at = (kind: VoiFunction) => windowed(x, { center: c, width: w, function: kind });
    expect(at('LINEAR')).toBeCloseTo(linear, 3);
    expect(at('LINEAR_EXACT')).toBeCloseTo(exact, 3);
    expect(at('SIGMOID')).toBeCloseTo(sigmoid, 3);
  });

  it('never falls as the value rises, and stays within 0 and 255', () => {
    const value = fc.double({ min: -70_000, max: 70_000, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom<VoiFunction>('LINEAR', 'LINEAR_EXACT', 'SIGMOID'),
        value,
        fc.double({ min: 1, max: 70_000, noNaN: true }),
        value,
        value,
        (kind, center, width, a, b) => {
          const [low, high] = [Math.min(a, b), Math.max(a, b)].map((x) =>
            windowed(x, { center, width, function: kind }),
          ) as [number, number];
          return low <= high && low >= 0 && high <= 255;
        },
      ),
      { seed: 20_251_125 },
    );
  });
});

describe('displayLut', () => {
  const greyAt = (grey: GreyScale, light: Light, stored: number, range: readonly [number, number]) => {
    const lut = displayLut(grey, light, ...range);
    return lut.values[stored - lut.firstStored];
  };

  it('rescales before the window: 2 · 100 − 50 = 150', () => {
    const grey: GreyScale = { ...plain, modality: { kind: 'rescale', slope: 2, intercept: -50 } };
    // LINEAR, c 150.5, w 101: ((150 − 150) / 100 + 0.5) · 255 = 127.5.
    expect(greyAt(grey, window(150.5, 101), 100, [0, 4095])).toBe(128);
  });

  it('lets a modality table win, and counts from its first mapped value', () => {
    const table: LookupTable = {
      firstMapped: 100,
      bitsPerEntry: 12,
      entries: Uint16Array.of(0, 500, 1000),
      explanation: null,
    };
    const grey: GreyScale = { ...plain, modality: { kind: 'table', table } };
    // Below the first mapped value the first entry, above the last the last: PS3.3 C.11.1.1.1.
    const greys = [99, 100, 101, 102, 103].map((stored) => greyAt(grey, fullRange, stored, [99, 103]));
    expect(greys).toEqual([0, 0, 128, 255, 255]);
  });

  it('spreads a VOI table over the bits of its descriptor, not over its entries', () => {
    const table: LookupTable = {
      firstMapped: 10,
      bitsPerEntry: 8,
      entries: Uint16Array.of(0, 60, 120),
      explanation: null,
    };
    const light: Light = { shown: { kind: 'voi-table', index: 0 }, negative: false };
    const grey: GreyScale = { ...plain, voiTables: [table] };
    expect([9, 10, 11, 12, 13].map((stored) => greyAt(grey, light, stored, [9, 13]))).toEqual([
      0, 0, 60, 120, 120,
    ]);
  });

  it('inverts MONOCHROME1 once, and the negative once more', () => {
    const inverted: GreyScale = { ...plain, photometric: 'MONOCHROME1' };
    const light = window(128, 256);
    expect(greyAt(plain, light, 40, [0, 255])).toBe(40);
    expect(greyAt(inverted, light, 40, [0, 255])).toBe(215);
    expect(greyAt(inverted, { ...light, negative: true }, 40, [0, 255])).toBe(40);
    expect(greyAt(plain, { ...light, negative: true }, 40, [0, 255])).toBe(215);
  });

  it.each([true, false])(
    'paints padding black, even where everything else is turned over (%s)',
    (negative) => {
      const grey: GreyScale = { ...plain, photometric: 'MONOCHROME1', padding: { from: 0, to: 9 } };
      const lut = displayLut(grey, window(128, 256, 'LINEAR', negative), 20, 200);
      expect(lut.firstStored).toBe(0);
      expect(Array.from(lut.values.subarray(0, 10))).toEqual(new Array(10).fill(0));
      expect(lut.values[20]).toBe(negative ? 20 : 235);
    },
  );

  it('paints padding black within the range of the film too', () => {
    const grey: GreyScale = { ...plain, padding: { from: 100, to: 101 } };
    const { values } = displayLut(grey, window(128, 256), 0, 255);
    expect(Array.from(values.subarray(98, 104))).toEqual([98, 99, 0, 0, 102, 103]);
  });

  it('covers padding above the film, and cuts padding that its bits cannot hold', () => {
    const above = displayLut({ ...plain, padding: { from: 4095, to: 4095 } }, fullRange, 0, 100);
    expect(above.values.length).toBe(4096);
    expect(above.values[4095]).toBe(0);
    const beyond = displayLut({ ...plain, padding: { from: 60_000, to: 65_535 } }, fullRange, 0, 100);
    expect(beyond.values.length).toBe(4096);
  });

  it.each([
    ['no number', Number.NaN, 100],
    ['width 0', 100, 0],
    ['a negative width', 100, -5],
    ['LINEAR of width below 1', 100, 0.5],
  ])('falls back to the full range for a window of %s', (_, center, width) => {
    expect(displayLut(plain, window(center, width), 0, 200)).toEqual(displayLut(plain, fullRange, 0, 200));
  });

  it('shows a film of one value in middle grey', () => {
    expect(Array.from(displayLut(plain, fullRange, 7, 7).values)).toEqual([128]);
  });
});

describe('against dcmtk’s renderer, within 1 grey level', () => {
  const rows = 32;
  const columns = 64;
  const ramp = Array.from({ length: rows * columns }, (_, i) => (i * 2) & 0xfff);
  const decimal = (tag: Element['tag'], value: string): Element => ({ tag, vr: 'DS', value });
  const opening = (center: string, width: string, ...more: Element[]): Element[] => [
    decimal('0028,1050', center),
    decimal('0028,1051', width),
    ...more,
  ];
  const sigmoid: Element = { tag: '0028,1056', vr: 'CS', value: 'SIGMOID' };
  const inverse: Element = { tag: '2050,0020', vr: 'CS', value: 'INVERSE' };
  const rescale = (slope: string, intercept: string) => [
    decimal('0028,1052', intercept),
    decimal('0028,1053', slope),
  ];
  const squareRoot = voiTable(
    [1024, 500, 12],
    Array.from({ length: 1024 }, (_, i) => Math.round(4095 * Math.sqrt(i / 1023))),
  );
  const modalityTable: Element = {
    tag: '0028,3000',
    vr: 'SQ',
    value: {
      items: [
        [
          { tag: '0028,3002', vr: 'US', value: [4096, 0, 12] },
          { tag: '0028,3004', vr: 'LO', value: 'US' },
          { tag: '0028,3006', vr: 'OW', value: Array.from({ length: 4096 }, (_, i) => 4095 - i) },
        ],
      ],
    },
  };
  const cases: readonly { name: string; options: FilmOptions; flags: readonly string[] }[] = [
    { name: 'LINEAR', options: { extra: opening('1500', '2000') }, flags: ['+Wi', '1'] },
    { name: 'LINEAR, narrow', options: { extra: opening('1000', '16') }, flags: ['+Wi', '1'] },
    { name: 'LINEAR, width 1', options: { extra: opening('1000', '1') }, flags: ['+Wi', '1'] },
    { name: 'LINEAR, wider than the film', options: { extra: opening('2048', '9000') }, flags: ['+Wi', '1'] },
    { name: 'SIGMOID', options: { extra: opening('1500', '2000', sigmoid) }, flags: ['+Wi', '1'] },
    {
      name: 'MONOCHROME1',
      options: { photometric: 'MONOCHROME1', extra: opening('1500', '2000') },
      flags: ['+Wi', '1'],
    },
    {
      name: 'MONOCHROME1 with shape INVERSE, inverted once',
      options: { photometric: 'MONOCHROME1', extra: opening('1500', '2000', inverse) },
      flags: ['+Wi', '1'],
    },
    {
      name: 'rescale',
      options: { extra: opening('100', '3000', ...rescale('1.5', '-1024')) },
      flags: ['+Wi', '1'],
    },
    {
      name: 'a falling rescale',
      options: { extra: opening('-1500', '2000', ...rescale('-1', '0')) },
      flags: ['+Wi', '1'],
    },
    { name: 'signed values', options: { signed: true, extra: opening('0', '2000') }, flags: ['+Wi', '1'] },
    { name: 'a VOI table', options: { extra: [squareRoot] }, flags: ['+Wl', '1'] },
    {
      name: 'a modality table',
      options: { extra: opening('1500', '2000', modalityTable) },
      flags: ['+Wi', '1'],
    },
    { name: '16 bits', options: { bitsStored: 16, extra: opening('2000', '3000') }, flags: ['+Wi', '1'] },
  ];

  itWithDcmtk.each(cases)('$name', async ({ options, flags }) => {
    expectDcmtk();
    const file = dicomFile(filmElements({ rows, columns, samples: ramp, ...options }));
    const film = await openFilm(file);
    const lut = displayLut(film.grey, defaultLight(film), film.storedMin, film.storedMax);
    const reference = renderedByDcmtk(file, flags);
    expect(reference.length).toBe(rows * columns);
    let greatest = 0;
    film.levels[0]!.pixels.forEach((stored, i) => {
      greatest = Math.max(greatest, Math.abs(lut.values[stored - lut.firstStored]! - reference[i]!));
    });
    expect(greatest).toBeLessThanOrEqual(1);
    // The reference is not one flat grey, so that the comparison says something.
    expect(new Set(reference).size).toBeGreaterThan(1);
  });
  /**
   * What a modality table puts out is never signed (PS3.3 C.11.1.1.1), so neither is what a VOI table begins with after
   * it, although the stored values are. Only with implicit VR does the file itself not say so.
   */
  itWithDcmtk('a VOI table beyond 32,767 after a modality table, on signed values, implicit VR', async () => {
    expectDcmtk();
    const onSigned: Element = {
      tag: '0028,3000',
      vr: 'SQ',
      value: {
        items: [
          [
            { tag: '0028,3002', vr: 'SS', value: [4096, -2048, 16] },
            { tag: '0028,3004', vr: 'LO', value: 'US' },
            { tag: '0028,3006', vr: 'OW', value: Array.from({ length: 4096 }, (_, i) => 16 * i) },
          ],
        ],
      },
    };
    const beyond = voiTable(
      [20_000, 40_000, 12],
      Array.from({ length: 20_000 }, (_, i) => Math.floor((4095 * i) / 19_999)),
    );
    const file = dicomFile(
      filmElements({ rows, columns, samples: ramp, signed: true, extra: [onSigned, beyond] }),
      SYNTAX.implicit,
    );
    const film = await openFilm(file);
    expect(film.grey.voiTables[0]!.firstMapped).toBe(40_000);
    const lut = displayLut(film.grey, defaultLight(film), film.storedMin, film.storedMax);
    const reference = renderedByDcmtk(file, ['+Wl', '1']);
    const greys = Array.from(film.levels[0]!.pixels, (stored) => lut.values[stored - lut.firstStored]!);
    expect(Math.max(...greys.map((grey, i) => Math.abs(grey - reference[i]!)))).toBeLessThanOrEqual(1);
    expect(new Set(reference).size).toBeGreaterThan(1);
  });
});
