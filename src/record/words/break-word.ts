const GRAPHEMES = new Intl.Segmenter('en', { granularity: 'grapheme' });

/**
 * A word in the fewest pieces that each fit, broken between characters as they are read (Unicode, UAX 29). A word
 * that fits is one piece; a piece holds one character at least, however narrow the place.
 *
 * @param fits - Whether a piece fits into an empty line.
 */
export function brokenToFit(word: string, fits: (piece: string) => boolean): readonly string[] {
  if (fits(word)) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const { segment } of GRAPHEMES.segment(word)) {
    if (piece !== '' && !fits(piece + segment)) {
      pieces.push(piece);
      piece = segment;
    } else piece += segment;
  }
  return [...pieces, piece];
}
