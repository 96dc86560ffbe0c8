import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import {
  dicomFile,
  type Element,
  type FilmOptions,
  filmElements,
  inFragments,
  SYNTAX,
} from '../dicom-file.ts';
import { openFilm, storedValues } from '../open.ts';

const film = (options: FilmOptions, syntax?: string) => openFilm(dicomFile(filmElements(options), syntax));

describe('colour becomes luminance', () => {
  // 0.299 R + 0.587 G + 0.114 B by hand: red 76.245, green 149.685, blue 29.07, and grey 100 stays 100.
  const colours = [255, 0, 0, 0, 255, 0, 0, 0, 255, 100, 100, 100, 0, 0, 0, 255, 255, 255];
  const greys = [76, 150, 29, 100, 0, 255];
  const planes = [0, 1, 2].flatMap((plane) => colours.filter((_, i) => i % 3 === plane));
  const rgb = { bitsAllocated: 8, photometric: 'RGB', samplesPerPixel: 3 } as const;
  const planar = (value: number): Element => ({ tag: '0028,0006', vr: 'US', value: [value] });

  it('from RGB by pixel and by plane', async () => {
    const byPixel = await film({ ...rgb, samples: colours, extra: [planar(0)] });
    const byPlane = await film({ ...rgb, samples: planes, extra: [planar(1)] });
    expect(storedValues(byPixel)).toEqual(greys);
    expect(storedValues(byPlane)).toEqual(greys);
    expect(byPixel.facts.wasColour).toBe(true);
  });

  it('from RGB of 16 bits', async () => {
    // 65,535 × 0.299 = 19,594.97.
    const samples = [65535, 0, 0, ...new Array(15).fill(0)];
    const read = await film({ ...rgb, bitsAllocated: 16, bitsStored: 16, samples, extra: [planar(0)] });
    expect(storedValues(read)[0]).toBe(19595);
  });

  it('from YBR_FULL, which keeps it first, and from YBR_FULL_422, two pixels to a pair', async () => {
    const full = await film({
      ...rgb,
      photometric: 'YBR_FULL',
      samples: [10, 1, 2, 20, 3, 4, 30, 5, 6, 40, 7, 8, 50, 9, 10, 60, 11, 12],
    });
    expect(storedValues(full)).toEqual([10, 20, 30, 40, 50, 60]);
    const half = await film({
      ...rgb,
      rows: 1,
      columns: 4,
      photometric: 'YBR_FULL_422',
      samples: [10, 20, 128, 128, 30, 40, 128, 128],
    });
    expect(storedValues(half)).toEqual([10, 20, 30, 40]);
  });

  it('from YBR_FULL_422 in deflated frames, whose pixels are native ones (PS3.5 8.2.16)', async () => {
    const fragments = [deflateRawSync(Uint8Array.of(10, 20, 128, 128, 30, 40, 128, 128))];
    const half = await film(
      {
        ...rgb,
        rows: 1,
        columns: 4,
        photometric: 'YBR_FULL_422',
        pixelData: inFragments(...fragments),
      },
      '1.2.840.10008.1.2.8.1',
    );
    expect(storedValues(half)).toEqual([10, 20, 30, 40]);
  });

  it('from YBR_PARTIAL_422, whose black is 16 and white 235 (PS3.3 C.7.6.3.1.2)', async () => {
    const read = await film({
      ...rgb,
      rows: 1,
      columns: 4,
      photometric: 'YBR_PARTIAL_422',
      samples: [16, 235, 128, 128, 0, 255, 128, 128],
    });
    expect(storedValues(read)).toEqual([0, 255, 0, 255]);
  });

  it('from a palette, with its first index and entries beyond its ends', async () => {
    const table = (tag: Element['tag'], entries: number[]): Element => ({ tag, vr: 'OW', value: entries });
    const descriptor = (tag: Element['tag']): Element => ({ tag, vr: 'US', value: [3, 10, 16] });
    const read = await film({
      bitsAllocated: 8,
      photometric: 'PALETTE COLOR',
      samples: [9, 10, 11, 12, 13, 10],
      extra: [
        descriptor('0028,1101'),
        descriptor('0028,1102'),
        descriptor('0028,1103'),
        table('0028,1201', [65535, 1000, 0]),
        table('0028,1202', [0, 1000, 65535]),
        table('0028,1203', [0, 1000, 0]),
      ],
    });
    // 65,535 × 0.299 = 19,594.97; × 0.587 = 38,469.05.
    expect(storedValues(read)).toEqual([19595, 19595, 1000, 38469, 38469, 19595]);
    expect(read.grey.bitsStored).toBe(16);
  });
});

describe('a palette in implicit VR', () => {
  it('begins at an index above 32,767, which is not negative', async () => {
    const colours = (['1', '2', '3'] as const).flatMap((end): Element[] => [
      { tag: `0028,110${end}`, vr: 'US', value: [2, 40_000, 16] },
      { tag: `0028,120${end}`, vr: 'OW', value: [11, 22] },
    ]);
    const options = { photometric: 'PALETTE COLOR', bitsStored: 16, extra: colours };
    const samples = [40_000, 40_001, 39_999, 65_535, 0, 40_001];
    expect(storedValues(await film({ ...options, samples }, SYNTAX.implicit))).toEqual([
      11, 22, 11, 22, 11, 22,
    ]);
  });
});
