import { describe, expect, it } from 'vitest';
import { dicomFile, type Element, filmElements, inFragments, SYNTAX, voiTable } from '../dicom-file.ts';
import { openFilm, storedValues } from '../open.ts';
import { greyJpeg } from '../picture/jpegs.ts';

const text = (tag: Element['tag'], vr: string, value: string): Element => ({ tag, vr, value });
const short = (tag: Element['tag'], value: number, vr = 'US'): Element => ({ tag, vr, value: [value] });
const film = (extra: Element[] = [], options = {}) =>
  openFilm(dicomFile(filmElements({ extra, ...options })));

describe('what a film says of itself', () => {
  it('says nothing that the file does not', async () => {
    expect((await film()).facts).toEqual({
      format: 'dicom',
      modality: 'CR',
      sopClassUid: '1.2.840.10008.5.1.4.1.1.1',
      transferSyntaxUid: SYNTAX.explicit,
      viewPosition: null,
      laterality: null,
      patientOrientation: null,
      lossy: null,
      burnedIn: null,
      stored: { photometric: 'MONOCHROME2', bitsAllocated: 16 },
      wasColour: false,
      notes: [],
    });
  });

  it('takes no other text for a statement of loss', async () => {
    expect((await film([text('0028,2110', 'CS', 'constructor')])).facts.lossy).toBeNull();
  });

  it('passes on view, orientation, burned-in text and loss', async () => {
    const { facts } = await film([
      text('0018,5101', 'CS', 'PA'),
      text('0020,0020', 'CS', 'L\\F'),
      text('0028,0301', 'CS', 'YES'),
      text('0028,2110', 'CS', '01'),
    ]);
    expect(facts).toMatchObject({
      viewPosition: 'PA',
      patientOrientation: ['L', 'F'],
      burnedIn: true,
      lossy: true,
    });
  });

  it('passes on the first view code, of SNOMED CT or of its older form', async () => {
    const code = (value: string): Element => ({
      tag: '0054,0220',
      vr: 'SQ',
      value: { items: [[text('0008,0100', 'SH', value), text('0008,0102', 'SH', 'SCT')]] },
    });
    // PS3.16 CID 4010, read from pydicom's dictionaries: 399067008 (older R-102CD) is "lateral".
    expect((await film([code('399067008')])).facts.viewCode).toBe('399067008');
    expect((await film([code('R-102CD')])).facts.viewCode).toBe('R-102CD');
    expect((await film([{ tag: '0054,0220', vr: 'SQ', value: { items: [] } }])).facts).not.toHaveProperty(
      'viewCode',
    );
  });

  it.each([
    [[text('0020,0060', 'CS', 'L')], 'L'],
    [[text('0020,0062', 'CS', 'R')], 'R'],
    [[text('0020,0060', 'CS', 'L'), text('0020,0062', 'CS', 'R')], 'R'],
    [[text('0020,0062', 'CS', 'X')], null],
  ])('lets the side of the image win over that of the series (PS3.3 C.8.11.1)', async (extra, side) => {
    expect((await film(extra)).facts.laterality).toBe(side);
  });

  it('knows a JPEG Baseline film as lossy although the file does not say so', async () => {
    const pixelData = inFragments(greyJpeg());
    const elements = filmElements({ rows: 12, columns: 16, bitsAllocated: 8, pixelData });
    expect((await openFilm(dicomFile(elements, SYNTAX.jpegBaseline))).facts.lossy).toBe(true);
  });

  it('does not believe a film of a lossy syntax that says nothing was lost', async () => {
    const pixelData = inFragments(greyJpeg());
    const elements = filmElements({
      rows: 12,
      columns: 16,
      bitsAllocated: 8,
      pixelData,
      extra: [text('0028,2110', 'CS', '00')],
    });
    const { facts } = await openFilm(dicomFile(elements, SYNTAX.jpegBaseline));
    expect(facts.lossy).toBe(true);
    expect(facts.notes).toEqual([
      'The file says that nothing was lost in compression, but JPEG Baseline always loses some; fine edges may have moved.',
    ]);
  });

  // PS3.3 C.7.6.1.1.5.2: one value for each compression, the first first; 30 is 30 to 1.
  it.each([
    ['30', 'to 1/30 of its size'],
    ['12.5\\8', 'to 1/12.5 and then 1/8 of its size'],
  ])('says how far a film was compressed with loss: %s', async (ratio, words) => {
    const { facts } = await film([text('0028,2110', 'CS', '01'), text('0028,2112', 'DS', ratio)]);
    expect(facts.lossy).toBe(true);
    expect(facts.notes).toEqual([
      `The film was compressed with loss, ${words}; fine edges may have moved or gone. Ask for the original where it can be had.`,
    ]);
  });

  it.each([['many'], ['0'], ['-3']])('says nothing of a ratio that is none: %s', async (ratio) => {
    const { facts } = await film([text('0028,2110', 'CS', '01'), text('0028,2112', 'DS', ratio)]);
    expect(facts.lossy).toBe(true);
    expect(facts.notes).toEqual([]);
  });

  it('takes the class of the meta header where the data set has none', async () => {
    const { facts } = await openFilm(dicomFile(filmElements({ without: ['0008,0016'] })));
    // The writer of these files then puts 2.25.1 there.
    expect(facts.sopClassUid).toBe('2.25.1');
  });
});

describe('padding (PS3.3 C.7.5.1.1.2)', () => {
  it('is left out of the range of the film', async () => {
    const read = await film([short('0028,0120', 0)], { samples: [0, 0, 100, 200, 300, 0] });
    expect(read.grey.padding).toEqual({ from: 0, to: 0 });
    expect([read.storedMin, read.storedMax]).toEqual([100, 300]);
    expect(storedValues(read)).toEqual([0, 0, 100, 200, 300, 0]);
  });

  it('may be a range, given from either end', async () => {
    const read = await film([short('0028,0120', 4095), short('0028,0121', 4000)], {
      samples: [4000, 4095, 100, 200, 4050, 0],
    });
    expect(read.grey.padding).toEqual({ from: 4000, to: 4095 });
    expect([read.storedMin, read.storedMax]).toEqual([0, 200]);
  });

  it('is signed where the pixels are', async () => {
    const read = await film([short('0028,0120', -2000, 'SS')], {
      signed: true,
      samples: [-2000, -100, 0, 100, 5, 6],
    });
    expect(read.grey.padding).toEqual({ from: -2000, to: -2000 });
    expect(read.storedMin).toBe(-100);
  });

  it('that fills the film leaves a range of 0 to 0', async () => {
    const read = await film([short('0028,0120', 7)], { samples: [7, 7, 7, 7, 7, 7] });
    expect([read.storedMin, read.storedMax]).toEqual([0, 0]);
  });
});

describe('lookup tables', () => {
  const table = (descriptor: number[], data: Element): Element => ({
    tag: '0028,3010',
    vr: 'SQ',
    value: { items: [[{ tag: '0028,3002', vr: 'US', value: descriptor }, data]] },
  });

  it('of 0 entries have 65,536 (PS3.3 C.11.2.1.1)', async () => {
    const entries = Array.from({ length: 65_536 }, (_, i) => i);
    const data: Element = {
      tag: '0028,3006',
      vr: 'UN',
      value: new Uint8Array(Uint16Array.from(entries).buffer),
    };
    const read = await film([table([0, 0, 16], data)]);
    expect(read.grey.voiTables[0]!.entries.length).toBe(65_536);
    expect(read.grey.voiTables[0]!.entries[65_535]).toBe(65_535);
  });

  it('begin at a negative value where the pixels are signed', async () => {
    const read = await film([voiTable([3, -5, 8], [1, 2, 3])], {
      signed: true,
    });
    expect(read.grey.voiTables[0]!.firstMapped).toBe(-5);
  });

  it('begin at a negative value in implicit VR, by the sign of the pixels', async () => {
    const elements = filmElements({
      signed: true,
      extra: [table([3, 0xfffb, 8], { tag: '0028,3006', vr: 'OW', value: [1, 2, 3] })],
    });
    const read = await openFilm(dicomFile(elements, SYNTAX.implicit));
    expect(read.grey.voiTables[0]!.firstMapped).toBe(-5);
  });

  it('of 8 bits may hold a byte to an entry', async () => {
    const data: Element = { tag: '0028,3006', vr: 'OW', value: Uint8Array.of(10, 20, 30, 40) };
    const read = await film([table([4, 0, 8], data)]);
    expect(Array.from(read.grey.voiTables[0]!.entries)).toEqual([10, 20, 30, 40]);
  });

  it.each([
    ['too few entries', [5, 0, 8]],
    ['17 bits', [2, 0, 17]],
    ['half a descriptor', [2, 0]],
  ])('with %s are left out, with a note', async (_, descriptor) => {
    const read = await film([table(descriptor, { tag: '0028,3006', vr: 'OW', value: [1, 2] })]);
    expect(read.grey.voiTables).toEqual([]);
    expect(read.facts.notes).toEqual(['VOI lookup table 1 of the file could not be read; it is left out.']);
  });
});
