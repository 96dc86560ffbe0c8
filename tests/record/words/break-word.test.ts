import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { brokenToFit } from '../../../src/record/words/break-word.ts';

const upTo = (most: number) => (piece: string) => piece.length <= most;

describe('brokenToFit', () => {
  it('leaves a word that fits, and breaks one that does not into the fewest pieces', () => {
    expect(brokenToFit('shaft', upTo(5))).toEqual(['shaft']);
    expect(brokenToFit('metacarpal', upTo(4))).toEqual(['meta', 'carp', 'al']);
    expect(brokenToFit('', upTo(4))).toEqual(['']);
  });

  it('loses nothing, and holds every piece to the width', () => {
    fc.assert(
      fc.property(fc.string(), fc.integer({ min: 1, max: 9 }), (word, most) => {
        const pieces = brokenToFit(word, upTo(most));
        expect(pieces.join('')).toBe(word);
        for (const piece of pieces) expect(piece.length).toBeLessThanOrEqual(most);
      }),
    );
  });

  it('never parts a letter from its accent, nor stops where nothing fits', () => {
    // UAX 29, GB9: no break before a combining mark. "e" with U+0301.
    expect(brokenToFit('e\u0301e\u0301', upTo(1))).toEqual(['e\u0301', 'e\u0301']);
  });
});
