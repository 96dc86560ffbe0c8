import { type Color, rgb } from 'pdf-lib';

const hexadecimal = (colour: string): Color =>
  rgb(
    Number.parseInt(colour.slice(1, 3), 16) / 255,
    Number.parseInt(colour.slice(3, 5), 16) / 255,
    Number.parseInt(colour.slice(5, 7), 16) / 255,
  );

/** Ink, one accent, one warning tone: the colours of the screen on white paper. */
export const INK = {
  ink: hexadecimal('#1d2228'),
  soft: hexadecimal('#545d67'),
  rule: hexadecimal('#d9d4c8'),
  edge: hexadecimal('#857f70'),
  accent: hexadecimal('#0b5c6b'),
  warn: hexadecimal('#8a3b12'),
  warnGround: hexadecimal('#fbeee4'),
  band: hexadecimal('#e8d6cc'),
  bone: hexadecimal('#f1ece0'),
} as const;
