import { describe, expect, it } from 'vitest';
import type { FilmError } from '../../src/film/film.ts';
import { sentence } from '../../src/film/film-error.ts';

const errors: readonly [FilmError, string][] = [
  [{ kind: 'empty-file' }, '“a.dcm” is empty: it holds no bytes. Copy or export it again.'],
  [
    { kind: 'not-a-film', looksLike: 'a PDF document' },
    '“a.dcm” is not a film this tool opens: it looks like a PDF document. Open a DICOM radiograph, or a PNG or JPEG picture of one.',
  ],
  [
    { kind: 'not-a-film', looksLike: null },
    '“a.dcm” is not a film this tool knows. Open a DICOM radiograph, or a PNG or JPEG picture of one.',
  ],
  [
    { kind: 'damaged', format: 'dicom', detail: 'its RLE header is not all there' },
    '“a.dcm” is a damaged DICOM file: its RLE header is not all there. Ask for the film again.',
  ],
  [
    { kind: 'truncated', expectedBytes: 1_048_576, foundBytes: 40_000 },
    '“a.dcm” is cut short: its picture needs 1,048,576 bytes and 40,000 are there. Copy or export it again.',
  ],
  [
    { kind: 'no-pixel-data', sopClassName: 'structured report' },
    '“a.dcm” holds no picture: it is a DICOM structured report. Open the radiograph itself, or the whole folder it lies in.',
  ],
  [
    { kind: 'no-pixel-data', sopClassName: null },
    '“a.dcm” holds no picture. Open the radiograph itself, or the whole folder it lies in.',
  ],
  [
    { kind: 'unsupported-transfer-syntax', uid: '1.2.3', name: 'JPEG XL' },
    '“a.dcm” is compressed as JPEG XL (1.2.3), which this tool does not read. Export it uncompressed, or as JPEG Lossless or JPEG 2000.',
  ],
  [
    { kind: 'unsupported-picture', detail: 'a JPEG of 4 colour components' },
    '“a.dcm” holds a kind of picture this tool does not read: a JPEG of 4 colour components. Ask for the film again.',
  ],
  [
    { kind: 'codec-not-loaded', codec: 'JPEG 2000' },
    '“a.dcm” needs the JPEG 2000 decoder of this app, which could not be loaded. Check the connection and open the film again.',
  ],
  [
    { kind: 'missing-attribute', tag: '(0028,0010)', keyword: 'Rows' },
    '“a.dcm” lacks Rows (0028,0010), without which it cannot be shown. Ask for the film again.',
  ],
  [
    { kind: 'bad-attribute', tag: '(0028,0010)', keyword: 'Rows', found: '0', wanted: '1 or more' },
    '“a.dcm” says Rows (0028,0010) is 0, where 1 or more is wanted. Ask for the film again.',
  ],
  [
    { kind: 'part-not-in-picture', columns: 454, rows: 373 },
    '“a.dcm” is 454 × 373 pixels, and the part of it that the case holds does not lie on it. Open the picture that the case was made with.',
  ],
  [
    { kind: 'too-large', columns: 65_535, rows: 65_535, limitPixels: 100_000_000 },
    '“a.dcm” says it is 65,535 × 65,535 pixels, more than the 100,000,000 this tool opens. Export it at a smaller size, or check that the file is sound.',
  ],
];

describe('sentence', () => {
  it.each(errors)('%j', (error, said) => {
    expect(sentence(error, 'a.dcm')).toBe(said);
  });
});
