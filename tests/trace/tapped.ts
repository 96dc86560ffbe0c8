import { type FilmPoint, filmPoint } from '../../src/geometry/units.ts';
import { normalDeviate, type Random, seededRandom } from '../../src/phantom/random.ts';
import type { BonePicture } from '../../src/trace/picture.ts';
import type { Bracket, TraceRequest } from '../../src/trace/request.ts';
import type { InventedCrop, OutlinePair } from './invented-crop.ts';
import type { PlannedFilm } from './invented-set.ts';

/** How a film was tapped: four taps, or four taps and brackets, with an error per coordinate in mm. */
export const TAP_MODES = ['taps 0.5', 'taps 1.0', 'brackets 0.7'] as const;
export type TapMode = (typeof TAP_MODES)[number];

export const TAP_ERROR_MM: Readonly<Record<TapMode, number>> = {
  'taps 0.5': 0.5,
  'taps 1.0': 1,
  'brackets 0.7': 0.7,
};

export const pictureOf = ({ columns, rows, pixels, bitsStored }: InventedCrop): BonePicture => ({
  columns,
  rows,
  values: Float32Array.from(pixels),
  firstColumn: 0,
  firstRow: 0,
  least: 0,
  greatest: 2 ** bitsStored - 1,
});

/** The taps of a hand that errs by a normal deviate in each coordinate. */
export function tapped(
  planned: Pick<PlannedFilm, 'view' | 'site'>,
  crop: InventedCrop,
  mode: TapMode,
  seed: number,
): TraceRequest {
  const random = seededRandom(seed, `taps, ${mode}`);
  const tapErrorMm = TAP_ERROR_MM[mode];
  const near = (point: FilmPoint): FilmPoint => missed(point, tapErrorMm / crop.pitchMm, random);
  const taps = {
    base: near(crop.base),
    proximalEnd: near(crop.proximalEnd),
    distalEnd: near(crop.distalEnd),
    headEnd: near(crop.headEnd),
  };
  const pairs = (fragment: Bracket['fragment'], outlines: readonly OutlinePair[]): Bracket[] =>
    outlines.map(({ one, other }) => ({ fragment, one: near(one), other: near(other) }));
  return {
    picture: pictureOf(crop),
    scale: { unit: 'mm', perColumn: crop.pitchMm, perRow: crop.pitchMm },
    taps,
    tapErrorMm,
    site: planned.site,
    view: planned.view,
    brackets:
      mode === 'brackets 0.7'
        ? [...pairs('proximal', crop.proximalOutlines), ...pairs('distal', crop.distalOutlines)]
        : [],
    corrections: [],
  };
}

const missed = ({ column, row }: FilmPoint, errorPixels: number, random: Random): FilmPoint =>
  filmPoint(column + errorPixels * normalDeviate(random), row + errorPixels * normalDeviate(random));
