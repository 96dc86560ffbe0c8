import { deflateRawSync, deflateSync, gzipSync } from 'node:zlib';
import { encode } from 'fast-png';
import { strToU8, zipSync } from 'fflate';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import { describe, expect, it } from 'vitest';
import { expectNoIdentityInside, identitiesInside } from './look-inside.ts';
import { sourceBytes } from './sample.ts';

/** The search itself: what a name is packed in, it has to find. */

const NAME = 'Quillfeather';

const clear = encode({ width: 30, height: 20, data: new Uint8Array(600), channels: 1 });

/** A chunk put before the pixels of a PNG; readers that check would miss its CRC, and the search does not look. */
function withChunk(name: string, data: Uint8Array): Uint8Array {
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const at = 8 + 12 + 13;
  return Buffer.concat([
    clear.subarray(0, at),
    length,
    Buffer.from(name),
    data,
    Buffer.alloc(4),
    clear.subarray(at),
  ]);
}

/** The film with the part after its group 0002 deflated (PS3.5 A.5); the transfer syntax is one character longer. */
function deflatedFilm(): Uint8Array {
  const film = Buffer.from(sourceBytes('film-1'));
  const meta = 132 + 12 + film.readUInt32LE(140);
  const head = Buffer.from(
    film.subarray(0, meta).toString('latin1').replace('1.2.840.10008.1.2.1\0', '1.2.840.10008.1.2.1.99'),
    'latin1',
  );
  head.writeUInt32LE(film.readUInt32LE(140) + 2, 140);
  return Buffer.concat([head, deflateRawSync(film.subarray(meta))]);
}

async function pdfSaying(text: string): Promise<Uint8Array> {
  const document = await PDFDocument.create();
  const page = document.addPage();
  page.drawText('plain', { font: await document.embedFont(StandardFonts.Helvetica) });
  document.context.register(document.context.flateStream(text));
  return document.save();
}

const zip = (entries: Record<string, Uint8Array>) => zipSync(entries, { level: 9 });

describe('looking inside', () => {
  it.each([
    ['a ZIP', () => zip({ 'note.txt': strToU8(`of ${NAME}`) })],
    ['the name of a ZIP entry', () => zip({ [`${NAME}.txt`]: strToU8('nothing') })],
    ['a film in a ZIP', () => zip({ 'films/1.dcm': sourceBytes('film-1') })],
    ['a deflated film in a ZIP in a ZIP', () => zip({ 'in.zip': zip({ 'a.dcm': deflatedFilm() }) })],
    ['gzip', () => gzipSync(NAME)],
    ['tEXt of a PNG', () => withChunk('tEXt', Buffer.from(`Author\0${NAME}`))],
    ['zTXt of a PNG', () => withChunk('zTXt', Buffer.concat([Buffer.from('Author\0\0'), deflateSync(NAME)]))],
    [
      'iTXt of a PNG, packed',
      () => withChunk('iTXt', Buffer.concat([Buffer.from('Author\0\x01\0en\0Author\0'), deflateSync(NAME)])),
    ],
    [
      'a PNG as base 64 in an SVG',
      () =>
        strToU8(
          `<svg><image href="data:image/png;base64,${Buffer.from(withChunk('zTXt', Buffer.concat([Buffer.from('Author\0\0'), deflateSync(NAME.repeat(9))]))).toString('base64')}"/></svg>`,
        ),
    ],
    ['UTF-16 in a ZIP', () => zip({ a: Buffer.from(NAME, 'utf16le') })],
  ])('finds a name in %s', (_, packed) => {
    const bytes = new Uint8Array(packed());
    expect(identitiesInside('file', bytes).some((found) => found.endsWith(NAME))).toBe(true);
  });

  it('finds a name in a stream of a PDF, where the bytes do not have it', async () => {
    const bytes = await pdfSaying(`of ${NAME}`);
    expect(Buffer.from(bytes).includes(NAME)).toBe(false);
    expect(identitiesInside('a.pdf', bytes)).toEqual([
      expect.stringMatching(/^a\.pdf > stream \d+: Quillfeather$/),
    ]);
  });

  it('finds nothing where there is nothing', async () => {
    expectNoIdentityInside('clear.zip', zip({ 'a.png': clear, 'a.pdf': await pdfSaying('nothing') }));
  });
});
