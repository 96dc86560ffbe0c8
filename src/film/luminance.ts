/**
 * The grey of a colour: Y = 0.299 R + 0.587 G + 0.114 B, the luminance of YBR_FULL in PS3.3 C.7.6.3.1.2 (and
 * of ITU-R BT.601). A grey picture stored as colour, R = G = B, keeps its values exactly.
 */
export const luminance = (red: number, green: number, blue: number): number =>
  Math.round((299 * red + 587 * green + 114 * blue) / 1000);
