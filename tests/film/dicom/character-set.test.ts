import { describe, expect, it } from 'vitest';
import { decodeText } from '../../../src/film/dicom/character-set.ts';

const latin = (text: string) => Uint8Array.from(text, (character) => character.charCodeAt(0));

/**
 * Names as bytes and as text. Annexes are those of PS3.5, which print the bytes of each example; the others are
 * of the character set example files that the pydicom project carries, as its README lists them.
 */
const names: readonly [source: string, sets: readonly string[], bytes: string, text: string][] = [
  [
    'H.3.1, kanji and hiragana by ISO 2022 IR 87',
    ['', 'ISO 2022 IR 87'],
    'Yamada^Tarou=\x1b$B;3ED\x1b(B^\x1b$BB@O:\x1b(B=\x1b$B$d$^$@\x1b(B^\x1b$B$?$m$&\x1b(B',
    'Yamada^Tarou=山田^太郎=やまだ^たろう',
  ],
  [
    'H.3.2, half-width katakana by ISO 2022 IR 13, kanji by IR 87',
    ['ISO 2022 IR 13', 'ISO 2022 IR 87'],
    '\xd4\xcf\xc0\xde^\xc0\xdb\xb3=\x1b$B;3ED\x1b(J^\x1b$BB@O:\x1b(J=\x1b$B$d$^$@\x1b(J^\x1b$B$?$m$&\x1b(J',
    'ﾔﾏﾀﾞ^ﾀﾛｳ=山田^太郎=やまだ^たろう',
  ],
  [
    'I.2, hanja and hangul by ISO 2022 IR 149',
    ['', 'ISO 2022 IR 149'],
    'Hong^Gildong=\x1b$)C\xfb\xf3^\x1b$)C\xd1\xce\xd4\xd7=\x1b$)C\xc8\xab^\x1b$)C\xb1\xe6\xb5\xbf',
    'Hong^Gildong=洪^吉洞=홍^길동',
  ],
  [
    'J.1, Chinese in UTF-8',
    ['ISO_IR 192'],
    'Wang^XiaoDong=\xe7\x8e\x8b^\xe5\xb0\x8f\xe6\x9d\xb1=',
    'Wang^XiaoDong=王^小東=',
  ],
  [
    'J.3, Chinese in GB18030',
    ['GB18030'],
    'Wang^XiaoDong=\xcd\xf5^\xd0\xa1\xb6\xab=',
    'Wang^XiaoDong=王^小东=',
  ],
  [
    'K.2, Chinese by ISO 2022 IR 58',
    ['', 'ISO 2022 IR 58'],
    'Zhang^XiaoDong=\x1b$)A\xd5\xc5^\x1b$)A\xd0\xa1\xb6\xab=',
    'Zhang^XiaoDong=张^小东=',
  ],
  ['chrFren, Latin 1', ['ISO_IR 100'], 'Buc^J\xe9r\xf4me', 'Buc^Jérôme'],
  ['chrGerm, Latin 1', ['ISO_IR 100'], '\xc4neas^R\xfcdiger', 'Äneas^Rüdiger'],
  ['chrGreek, Greek', ['ISO_IR 126'], '\xc4\xe9\xef\xed\xf5\xf3\xe9\xef\xf2', 'Διονυσιος'],
  ['chrHbrw, Hebrew', ['ISO_IR 138'], '\xf9\xf8\xe5\xef^\xe3\xe1\xe5\xf8\xe4', 'שרון^דבורה'],
  ['chrArab, Arabic', ['ISO_IR 127'], '\xe2\xc8\xc7\xe6\xea^\xe4\xe6\xd2\xc7\xd1', 'قباني^لنزار'],
];

describe('decodeText', () => {
  it.each(names)('%s', (_, sets, bytes, text) => {
    expect(decodeText(latin(bytes), sets)).toBe(text);
  });

  it('reads ASCII where no set is named', () => {
    expect(decodeText(latin('HAND, PA'), [])).toBe('HAND, PA');
  });

  it('goes back to the first set after a line end (PS3.5 6.1.2.5.3)', () => {
    // Latin 1 é is E9; under IR 126 (Greek) E9 is ι. The escape is left open at the end of the line.
    const bytes = latin('\x1b-F\xe9\r\n\xe9');
    expect(decodeText(bytes, ['ISO 2022 IR 100', 'ISO 2022 IR 126'])).toBe('ι\r\né');
  });

  it('keeps a kanji whose second byte is the sign between parts of a name', () => {
    // やまだ holds 24 5E, ま: 5E is ^ in ASCII. JIS X 0208 row 4, as in H.3.1.
    expect(decodeText(latin('\x1b$B$^\x1b(B'), ['', 'ISO 2022 IR 87'])).toBe('ま');
  });

  it('reads the supplementary kanji of ISO 2022 IR 159', () => {
    // JIS X 0212-1990, 16-01: 丂, U+4E02 (Unicode mapping table JIS0212.TXT, from memory).
    expect(decodeText(latin('\x1b$(D0!\x1b(B'), ['', 'ISO 2022 IR 159'])).toBe('丂');
  });

  it('keeps ASCII legible under a set it does not know', () => {
    // The second is a name that every object of the language has.
    for (const set of ['ISO_IR 999', 'constructor']) expect(decodeText(latin('HAND'), [set])).toBe('HAND');
  });
});
