import { createHash } from 'node:crypto';
import { deflateRawSync } from 'node:zlib';
import dcmjsCodecs from 'dcmjs-codecs';
import { zipSync } from 'fflate';
import { writeArchive } from '../../src/case/case-archive.ts';
import { writeCaseFile } from '../../src/case/case-file.ts';
import { freshState } from '../../src/case/history.ts';
import { caseOf, film, free, injury, mark } from '../case/samples.ts';
import { hasDcmtk, throughDcmtk } from '../film/dcmtk.ts';
import {
  dataSet,
  dicomFile,
  type Element,
  type FilmOptions,
  filmElements,
  SYNTAX,
  voiTable,
} from '../film/dicom-file.ts';
import { curv, greyProfile, wideProfile } from '../film/picture/icc-file.ts';
import { colourJpeg, greyJpeg, inPieces, progressiveJpeg, withOrientation } from '../film/picture/jpegs.ts';
import { iccp, interlacedPng, pngFile } from '../film/picture/png-file.ts';

/** A sound file of a kind, and who reads it. */
export interface Seed {
  readonly name: string;
  readonly readBy: 'films' | 'cases';
  readonly bytes: Uint8Array;
}

const ROWS = 40;
const COLUMNS = 60;
const samples = Array.from(
  { length: ROWS * COLUMNS },
  (_, i) => (Math.round(2000 + 1500 * Math.sin(i / 300)) + (i % 5)) & 0xfff,
);
export const grey = (options: FilmOptions = {}, syntax?: string): Uint8Array =>
  dicomFile(filmElements({ rows: ROWS, columns: COLUMNS, samples, ...options }), syntax);

export const encapsulated = (...fragments: Uint8Array[]): Element => ({
  tag: '7fe0,0010',
  vr: 'OB',
  value: { fragments },
});

const rich: readonly Element[] = [
  { tag: '0008,0005', vr: 'CS', value: '\\ISO 2022 IR 87' },
  { tag: '0010,0010', vr: 'PN', value: 'INVENTED^FILM' },
  { tag: '0018,1164', vr: 'DS', value: '0.2\\0.1' },
  { tag: '0028,0030', vr: 'DS', value: '0.2\\0.1' },
  { tag: '0028,1050', vr: 'DS', value: '2000\\1000' },
  { tag: '0028,1051', vr: 'DS', value: '3000\\500' },
  { tag: '0028,1052', vr: 'DS', value: '-100' },
  { tag: '0028,1053', vr: 'DS', value: '1.5' },
  voiTable([3, 0, 8], [1, 2, 3]),
  { tag: '0028,0120', vr: 'US', value: [0] },
];

const palette = (['1', '2', '3'] as const).flatMap((end): Element[] => [
  { tag: `0028,110${end}`, vr: 'US', value: [3, 10, 16] },
  { tag: `0028,120${end}`, vr: 'OW', value: [65535, 1000, 0] },
]);

function transcoded(uid: string): Uint8Array {
  const transcoder = new dcmjsCodecs.Transcoder(grey().buffer as ArrayBuffer);
  transcoder.transcode(uid);
  return new Uint8Array(transcoder.getDicomPart10());
}

const COMPRESSED: readonly (readonly [name: string, uid: string])[] = [
  ['RLE', SYNTAX.rle],
  ['JPEG Lossless', SYNTAX.jpegLossless],
  ['JPEG-LS', '1.2.840.10008.1.2.4.80'],
  ['JPEG 2000', '1.2.840.10008.1.2.4.90'],
  ['HTJ2K', SYNTAX.htj2k],
];

const dicomFilms = (): readonly (readonly [name: string, bytes: Uint8Array])[] => [
  ['explicit', grey({ extra: rich })],
  ['implicit', grey({ extra: rich }, SYNTAX.implicit)],
  ['big endian', grey({ extra: rich }, SYNTAX.bigEndian)],
  ['deflated', grey({ extra: rich }, SYNTAX.deflated)],
  ['without preamble', dataSet(filmElements({ rows: ROWS, columns: COLUMNS, samples }))],
  ['signed, high bit 15', grey({ signed: true, highBit: 15 })],
  ['colour', dicomFile(filmElements({ bitsAllocated: 8, photometric: 'RGB', samplesPerPixel: 3 }))],
  ['palette', dicomFile(filmElements({ bitsAllocated: 8, photometric: 'PALETTE COLOR', extra: palette }))],
  [
    'deflated frame',
    grey({ pixelData: encapsulated(deflateRawSync(Uint16Array.from(samples))) }, '1.2.840.10008.1.2.8.1'),
  ],
  [
    'JPEG in DICOM',
    dicomFile(
      filmElements({ rows: 12, columns: 16, bitsAllocated: 8, pixelData: encapsulated(greyJpeg()) }),
      SYNTAX.jpegBaseline,
    ),
  ],
  [
    'JPEG in DICOM with a colour profile',
    dicomFile(
      filmElements({
        rows: 12,
        columns: 16,
        bitsAllocated: 8,
        pixelData: encapsulated(inPieces(greyJpeg(), greyProfile(curv(461)), [1, 3], 3)),
      }),
      SYNTAX.jpegBaseline,
    ),
  ],
  ...COMPRESSED.map(([name, uid]) => [name, transcoded(uid)] as const),
  // No other encoder of 12-bit JPEG is at hand.
  ...(hasDcmtk ? [['JPEG Extended', throughDcmtk('dcmcjpeg', ['+ee', '+bt'], grey())] as const] : []),
];

const pictures = (): readonly (readonly [name: string, bytes: Uint8Array])[] => [
  ['JPEG', greyJpeg()],
  ['colour JPEG', colourJpeg()],
  ['progressive JPEG', progressiveJpeg()],
  ['JPEG with a colour profile', inPieces(colourJpeg(), wideProfile(), [2, 1])],
  [
    'PNG with a colour profile',
    pngFile({
      columns: 2,
      rows: 1,
      depth: 8,
      colourType: 0,
      lines: [[1, 2]],
      extra: [iccp(greyProfile(curv(461)))],
    }),
  ],
  ['turned JPEG', withOrientation(6)],
  ['interlaced PNG', interlacedPng()],
  ['PNG of 16 bits', pngFile({ columns: 2, rows: 1, depth: 16, colourType: 0, lines: [[1, 2, 3, 4]] })],
  [
    'PNG with palette',
    pngFile({
      columns: 4,
      rows: 2,
      depth: 2,
      colourType: 3,
      lines: [[0x1b], [0xe4]],
      extra: [
        ['PLTE', [0, 0, 0, 90, 90, 90, 180, 180, 180, 255, 255, 255]],
        ['tRNS', [0, 128]],
      ],
    }),
  ],
];

async function caseFiles(): Promise<readonly (readonly [name: string, bytes: Uint8Array])[]> {
  const bytes = new Uint8Array(greyJpeg());
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const state = freshState(
    caseOf(
      injury({ ray: 'ring', region: 'shaft' }),
      film('film-1', { sha256, format: 'jpeg' }),
      mark('film-1/proximal-axis', 'film-1', 'proximal-axis', free([100, 200], [100, 120])),
    ),
  );
  const text = writeCaseFile({ state, films: [{ sha256, bytes }], unknownFields: { extra: [1, { a: 2 }] } });
  const pieces: Uint8Array[] = [];
  await writeArchive(
    {
      cases: [{ state, unknownFields: {} }],
      filmBytes: () => Promise.resolve(bytes),
      at: '2026-03-01T09:30:00.000Z',
    },
    (piece) => void pieces.push(piece),
  );
  return [
    ['case file', new TextEncoder().encode(text)],
    ['case archive', new Uint8Array(Buffer.concat(pieces))],
  ];
}

/** Every sound file, in an order that does not change. */
export async function soundFiles(): Promise<readonly Seed[]> {
  await dcmjsCodecs.NativeCodecs.initializeAsync();
  const archive = zipSync({ DICOMDIR: new Uint8Array(9), 'IM/1': grey(), 'photo.jpg': greyJpeg() });
  const films = [...dicomFilms(), ...pictures(), ['ZIP archive', archive] as const];
  return [
    ...films.map(([name, bytes]) => ({ name, readBy: 'films', bytes }) as const),
    ...(await caseFiles()).map(([name, bytes]) => ({ name, readBy: 'cases', bytes }) as const),
  ];
}
