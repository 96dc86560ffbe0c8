import { describe, expect, it } from 'vitest';
import { identityOf } from '../../src/film/identity.ts';
import { dataSet, dicomFile, type Element, filmElements, SYNTAX } from './dicom-file.ts';
import { openFilm } from './open.ts';
import { greyJpeg } from './picture/jpegs.ts';

const patient = (id: string, name: string, born = '19700101', sets = ''): Element[] => [
  ...(sets === '' ? [] : [{ tag: '0008,0005', vr: 'CS', value: sets } as Element]),
  { tag: '0010,0010', vr: 'PN', value: name },
  { tag: '0010,0020', vr: 'LO', value: id },
  { tag: '0010,0030', vr: 'DA', value: born },
];
const of = (...extra: Element[]) => identityOf(dicomFile(filmElements({ extra })));

describe('identityOf', () => {
  it.each([
    ['case and separators', patient('7', 'Invented^Ada'), patient('7', 'INVENTED^ADA')],
    ['padding', patient('7 ', 'Invented^Ada^^'), patient('7', 'Invented^Ada')],
    ['accents', patient('7', 'M\xfcller', '1', 'ISO_IR 100'), patient('7', 'Muller', '1')],
    ['a second spelling', patient('7', 'Invented^Ada=ADA'), patient('7', 'Invented^Ada')],
  ])('is equal but for %s', (_, one, other) => {
    expect(of(...one)).not.toBeNull();
    expect(of(...one)).toBe(of(...other));
  });

  it.each([
    ['identifier', patient('8', 'Invented^Ada')],
    ['name', patient('7', 'Invented^Bea')],
    ['birth date', patient('7', 'Invented^Ada', '19700102')],
  ])('differs by %s', (_, other) => {
    expect(of(...other)).not.toBe(of(...patient('7', 'Invented^Ada')));
  });

  it.each([
    ['a picture', greyJpeg()],
    ['a film without name and identifier', dicomFile(filmElements())],
    ['empty attributes', dicomFile(filmElements({ extra: patient('', '') }))],
    ['a damaged file', dicomFile(filmElements({ extra: patient('7', 'A') })).subarray(0, 200)],
    ['nothing', new Uint8Array(0)],
  ])('is null for %s', (_, bytes) => {
    expect(identityOf(bytes)).toBeNull();
  });

  it('reads a file without preamble', () => {
    const elements = filmElements({ extra: patient('7', 'Invented^Ada') });
    expect(identityOf(dataSet(elements))).toBe(identityOf(dicomFile(elements)));
  });

  it('reads a deflated film whose picture is far larger than its header', () => {
    const elements = filmElements({
      extra: patient('7', 'Invented^Ada'),
      rows: 2000,
      columns: 1500,
      samples: new Array(3_000_000).fill(7),
    });
    expect(identityOf(dicomFile(elements, SYNTAX.deflated))).toBe(of(...patient('7', 'Invented^Ada')));
  });

  it('leaves nothing of the patient in the film', async () => {
    const film = await openFilm(
      dicomFile(filmElements({ extra: patient('SECRET77', 'HIDDEN^NAME', '19010203') })),
    );
    const said = JSON.stringify({ ...film, levels: [] });
    expect(said).not.toMatch(/SECRET77|HIDDEN|19010203/);
  });
});
