import { failure, type Result, success } from '../../geometry/result.ts';
import { LIMIT_PIXELS } from '../assemble.ts';
import type { FilmError } from '../film.ts';
import type { Attributes } from './attributes.ts';
import { type Keyword, tagOf } from './tags.ts';

type Photometric =
  | 'MONOCHROME1'
  | 'MONOCHROME2'
  | 'PALETTE COLOR'
  | 'RGB'
  | 'YBR_FULL'
  | 'YBR_FULL_422'
  | 'YBR_PARTIAL_422'
  | 'YBR_PARTIAL_420'
  | 'YBR_ICT'
  | 'YBR_RCT';

const PHOTOMETRICS: ReadonlySet<string> = new Set<Photometric>([
  'MONOCHROME1',
  'MONOCHROME2',
  'PALETTE COLOR',
  'RGB',
  'YBR_FULL',
  'YBR_FULL_422',
  'YBR_PARTIAL_422',
  'YBR_PARTIAL_420',
  'YBR_ICT',
  'YBR_RCT',
]);

/** The Image Pixel Module (PS3.3 C.7.6.3), checked: every number is one the reader can rely on. */
export interface PixelDescription {
  readonly rows: number;
  readonly columns: number;
  readonly frames: number;
  readonly samplesPerPixel: 1 | 3;
  readonly photometric: Photometric;
  readonly planar: boolean;
  readonly bitsAllocated: 8 | 16;
  readonly bitsStored: number;
  readonly highBit: number;
  readonly signed: boolean;
}

const missing = (keyword: Keyword) =>
  failure<FilmError>({ kind: 'missing-attribute', tag: tagOf(keyword), keyword });

const bad = (keyword: Keyword, found: unknown, wanted: string) =>
  failure<FilmError>({ kind: 'bad-attribute', tag: tagOf(keyword), keyword, found: String(found), wanted });

/** Reads and checks the description of the pixels before anything is allocated from it. */
export function readPixelDescription(attributes: Attributes): Result<PixelDescription, FilmError> {
  const required = {} as Record<'Rows' | 'Columns' | 'BitsAllocated' | 'BitsStored', number>;
  for (const keyword of ['Rows', 'Columns', 'BitsAllocated', 'BitsStored'] as const) {
    const value = attributes.unsigned(keyword);
    if (value === null) return missing(keyword);
    required[keyword] = value;
  }
  const { Rows: rows, Columns: columns, BitsAllocated: bitsAllocated, BitsStored: bitsStored } = required;
  if (rows === 0) return bad('Rows', rows, '1 or more');
  if (columns === 0) return bad('Columns', columns, '1 or more');
  if (rows * columns > LIMIT_PIXELS) {
    return failure({ kind: 'too-large', columns, rows, limitPixels: LIMIT_PIXELS });
  }
  // Single bit secondary capture (PS3.3 A.8.2) is sound, and no radiograph: grey is what an edge is found by.
  if (bitsAllocated === 1 || bitsStored === 1) {
    return failure({
      kind: 'unsupported-picture',
      detail: 'each of its pixels is one bit, black or white, with no grey between',
    });
  }
  if (bitsAllocated !== 8 && bitsAllocated !== 16) return bad('BitsAllocated', bitsAllocated, '8 or 16');
  if (bitsStored < 2 || bitsStored > bitsAllocated) {
    return bad('BitsStored', bitsStored, `2 to ${bitsAllocated}, the bits allocated`);
  }
  const highBit = attributes.unsigned('HighBit') ?? bitsStored - 1;
  if (highBit < bitsStored - 1 || highBit >= bitsAllocated) {
    return bad('HighBit', highBit, `${bitsStored - 1} to ${bitsAllocated - 1}`);
  }
  const representation = attributes.unsigned('PixelRepresentation');
  if (representation === null) return missing('PixelRepresentation');
  if (representation > 1) return bad('PixelRepresentation', representation, '0 or 1');
  const photometric = attributes.string('PhotometricInterpretation');
  if (photometric === null) return missing('PhotometricInterpretation');
  if (!PHOTOMETRICS.has(photometric)) {
    return failure({ kind: 'unsupported-picture', detail: `its colours are stored as ${photometric}` });
  }
  const single = ['MONOCHROME1', 'MONOCHROME2', 'PALETTE COLOR'].includes(photometric);
  const samplesPerPixel = attributes.unsigned('SamplesPerPixel') ?? (single ? 1 : 3);
  if (samplesPerPixel !== (single ? 1 : 3)) {
    return bad('SamplesPerPixel', samplesPerPixel, `${single ? 1 : 3}, as ${photometric} has`);
  }
  const frames = attributes.has('NumberOfFrames') ? attributes.number('NumberOfFrames') : 1;
  if (frames === null || !Number.isInteger(frames) || frames < 1) {
    return bad(
      'NumberOfFrames',
      attributes.string('NumberOfFrames') ?? 'nothing',
      'a whole number, 1 or more',
    );
  }
  return success({
    rows,
    columns,
    frames,
    samplesPerPixel,
    photometric: photometric as Photometric,
    planar: attributes.unsigned('PlanarConfiguration') === 1,
    bitsAllocated,
    bitsStored,
    highBit,
    signed: representation === 1,
  });
}
