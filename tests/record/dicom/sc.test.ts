import { describe, expect, it } from 'vitest';
import { type Picture, secondaryCaptureDataset } from '../../../src/record/dicom/sc.ts';
import { failed, succeeded } from '../../case/samples.ts';
import { decodedSamples } from '../../film/dcmtk.ts';
import { INSTANCE_UIDS, sourceBytes, sourceOf, writingFacts } from '../sample.ts';
import {
  asJson,
  expectSoundObject,
  firstOf,
  itWithDicomTools,
  type JsonElement,
  written,
} from './checked.ts';

const source = sourceOf(sourceBytes('film-1'));
const shared = () => ({ ...writingFacts(), source, laterality: 'R' as const });

const pictureOf = (columns: number, rows: number, samplesPerPixel: 3 | 4): Picture => ({
  columns,
  rows,
  samplesPerPixel,
  bytes: Uint8ClampedArray.from({ length: columns * rows * samplesPerPixel }, (_, index) =>
    samplesPerPixel === 4 && index % 4 === 3 ? 255 : (index * 37) % 256,
  ),
});

describe('secondaryCaptureDataset', () => {
  // 5 × 7 × 3 is odd: the value is padded to an even length (PS3.5 7.1.1).
  itWithDicomTools.each([
    [5, 7, 3],
    [6, 4, 4],
  ] as const)('is sound by dciodvfy and keeps its pixels: %i × %i of %i', (columns, rows, samples) => {
    const picture = pictureOf(columns, rows, samples);
    const bytes = written(succeeded(secondaryCaptureDataset({ ...shared(), picture })));
    expectSoundObject(bytes);
    const colours = Array.from(picture.bytes).filter((_, index) => samples === 3 || index % 4 !== 3);
    expect(decodedSamples(bytes, 1).slice(0, colours.length)).toEqual(colours);
    expect(decodedSamples(bytes, 1).length % 2).toBe(0);
    const object = asJson(bytes);
    const [from] = (object['00082112']!.Value as Record<string, JsonElement>[])!;
    expect(firstOf(from!, '00081155')).toBe(INSTANCE_UIDS['film-1']);
    expect(firstOf(object, '00280301')).toBe('YES');
  });

  it('lays what is not opaque on black', () => {
    const bytes = Uint8Array.of(200, 100, 50, 0, 200, 100, 50, 51);
    const picture = { columns: 2, rows: 1, samplesPerPixel: 4, bytes } as const;
    const object = written(succeeded(secondaryCaptureDataset({ ...shared(), picture })));
    // An opacity of 51/255 is one fifth.
    expect(decodedSamples(object, 1)).toEqual([0, 0, 0, 40, 20, 10]);
  });

  it.each([
    ['no pixels', { columns: 0, rows: 4, bytes: new Uint8Array(0) }, 'no-pixels'],
    ['pixels missing', { columns: 4, rows: 4, bytes: new Uint8Array(47) }, 'no-pixels'],
    ['too many', { columns: 9000, rows: 9000, bytes: new Uint8Array(0) }, 'too-large'],
    ['too long', { columns: 70000, rows: 1, bytes: new Uint8Array(210000) }, 'too-large'],
  ])('refuses a picture with %s', (_, picture, kind) => {
    const input = { ...shared(), picture: { ...picture, samplesPerPixel: 3 } as const };
    expect(failed(secondaryCaptureDataset(input)).kind).toBe(kind);
  });
});
