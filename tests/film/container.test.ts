import { type Zippable, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { lookInside, type NamedFile } from '../../src/film/container.ts';
import { sentence } from '../../src/film/film-error.ts';
import { dataSet, dicomFile, type Element, filmElements } from './dicom-file.ts';
import { openFilm } from './open.ts';
import { greyJpeg } from './picture/jpegs.ts';

const text = (words: string) => new TextEncoder().encode(words);
const film = dicomFile(filmElements());
const ctSlice = dicomFile(filmElements({ sopClass: '1.2.840.10008.5.1.4.1.1.2' }));
const report = dicomFile(filmElements({ sopClass: '1.2.840.10008.5.1.4.1.1.88.33', pixelData: null }));
/** PS3.3 F.3: a directory with no records. */
const directory = dicomFile([
  { tag: '0008,0016', vr: 'UI', value: '1.2.840.10008.1.3.10' },
  { tag: '0008,0018', vr: 'UI', value: '2.25.9' },
  { tag: '0004,1220', vr: 'SQ', value: { items: [] } } as Element,
]);

const disc: Zippable = {
  DICOMDIR: directory,
  'DICOM/IM0001': film,
  'DICOM/IM0002': ctSlice,
  'DICOM/SR0001': report,
  'preview.jpg': greyJpeg(),
  'readme.txt': text('Open the films with any reader.\n'),
  'empty.dcm': new Uint8Array(0),
};
const zip = (files: Zippable): NamedFile => ({ name: 'disc.zip', bytes: zipSync(files) });
const names = (files: readonly { readonly name: string }[]) => files.map(({ name }) => name);

describe('lookInside', () => {
  it('offers the radiographs of a disc in an archive and says why the rest is left out', async () => {
    const { films, leftOut } = lookInside([zip(disc)]);
    expect(names(films)).toEqual(['DICOM/IM0001', 'preview.jpg']);
    await openFilm(films[0]!.bytes);
    expect(leftOut.map(({ name, error }) => sentence(error, name))).toEqual([
      '“DICOMDIR” holds no picture: it is a DICOM list of a disc (DICOMDIR). Open the radiograph itself, or the whole folder it lies in.',
      '“DICOM/IM0002” is not a film this tool opens: it looks like a DICOM CT slice. Open a DICOM radiograph, or a PNG or JPEG picture of one.',
      '“DICOM/SR0001” holds no picture: it is a DICOM structured report. Open the radiograph itself, or the whole folder it lies in.',
      '“readme.txt” is not a film this tool opens: it looks like a text file. Open a DICOM radiograph, or a PNG or JPEG picture of one.',
      '“empty.dcm” is empty: it holds no bytes. Copy or export it again.',
    ]);
  });

  it('sorts the files of a folder alike', () => {
    const files = Object.entries(disc).map(([name, bytes]) => ({ name, bytes: bytes as Uint8Array }));
    expect(names(lookInside(files).films)).toEqual(['DICOM/IM0001', 'preview.jpg']);
  });

  it('takes a film without preamble', () => {
    expect(lookInside([{ name: 'a', bytes: dataSet(filmElements()) }]).films).toHaveLength(1);
  });

  it('does not open an archive in an archive', () => {
    const { films, leftOut } = lookInside([zip({ 'inner.zip': zipSync({ film }), film })]);
    expect(names(films)).toEqual(['film']);
    expect(leftOut).toEqual([
      { name: 'inner.zip', error: { kind: 'not-a-film', looksLike: 'a ZIP archive' } },
    ]);
  });

  it('is not stopped by an archive that is cut short, or by an entry that is damaged', () => {
    const whole = zip({ one: film, two: greyJpeg() });
    const cut = { name: 'cut.zip', bytes: whole.bytes.subarray(0, whole.bytes.length - 60) };
    const damaged = { name: 'damaged.zip', bytes: whole.bytes.slice() };
    // The first entry begins after its 30-byte header and the three letters of its name.
    damaged.bytes.fill(0xff, 33, 60);
    const { films, leftOut } = lookInside([cut, damaged, { name: 'film.dcm', bytes: film }]);
    expect(names(films)).toEqual(['two', 'film.dcm']);
    expect(names(leftOut)).toEqual(['cut.zip', 'one']);
  });

  it('finds the sound entries of a large archive between damaged ones', () => {
    const archive = zip(Object.fromEntries(Array.from({ length: 200 }, (_, i) => [`IM/${1000 + i}`, film])));
    // Local file header 04034B50; its data begins after 30 bytes and the name (ZIP application note 4.3.7).
    const starts = [...archive.bytes.keys()].filter(
      (at) => Buffer.from(archive.bytes.subarray(at, at + 4)).toString('latin1') === 'PK\x03\x04',
    );
    for (const entry of [3, 4, 150]) archive.bytes.fill(0xff, starts[entry]! + 37, starts[entry]! + 60);
    const { films, leftOut } = lookInside([archive]);
    expect(films).toHaveLength(197);
    expect(names(leftOut)).toEqual(['IM/1003', 'IM/1004', 'IM/1150']);
  });

  /** An archive of these files, all under the same name; each is put in under one of as many letters. */
  function underOneName(files: readonly Uint8Array[]): NamedFile {
    const archive = zip(Object.fromEntries(files.map((bytes, i) => [`IM/${1000 + i}`, bytes])));
    const bytes = Buffer.from(archive.bytes);
    for (const i of files.keys()) {
      // Once in its own header, once in the list of the archive (ZIP application note 4.3.7, 4.3.12).
      for (let at = bytes.indexOf(`IM/${1000 + i}`); at >= 0; at = bytes.indexOf(`IM/${1000 + i}`, at + 1))
        bytes.write('IM/same', at);
    }
    return { name: archive.name, bytes: new Uint8Array(bytes) };
  }

  it('tells entries of one name apart', () => {
    const jpegs = [greyJpeg(), new Uint8Array([...greyJpeg(), 0])];
    const { films, leftOut } = lookInside([underOneName([film, ...jpegs, text('no film')])]);
    expect(films).toEqual([film, ...jpegs].map((bytes) => ({ name: 'IM/same', bytes })));
    expect(names(leftOut)).toEqual(['IM/same']);
  });

  it('leaves an archive alone in which too many entries have one name', () => {
    const { films, leftOut } = lookInside([underOneName(Array.from({ length: 65 }, () => film))]);
    expect(films).toEqual([]);
    expect(leftOut.map(({ name, error }) => sentence(error, name))).toEqual([
      '“disc.zip” is not a film this tool opens: it looks like a ZIP archive of more than 64 files of one name. Open a DICOM radiograph, or a PNG or JPEG picture of one.',
    ]);
  });

  it('does not believe an entry that says it is larger than deflate can make it', () => {
    const { bytes } = zip({ film });
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    // Central directory header 02014B50, uncompressed size at +24 (ZIP application note 4.3.12).
    const at = bytes.findIndex((_, i) => i + 4 <= bytes.length && view.getUint32(i, true) === 0x02014b50);
    view.setUint32(at + 24, 900_000_000, true);
    const { films, leftOut } = lookInside([{ name: 'bomb.zip', bytes }]);
    expect(films).toEqual([]);
    expect(sentence(leftOut[0]!.error, 'film')).toMatch(/says it is larger than it can be/);
  });
});
