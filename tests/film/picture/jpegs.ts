/**
 * JPEG pictures of 16 × 12 pixels whose grey at column x and row y is 12 x + 5 y + 10, written with Pillow 9.4
 * (libjpeg-turbo) at the quality named; in the colour one green is 255 less that and blue is 60.
 */
const bytes = (base64: string) => Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));

export const COLUMNS = 16;
export const ROWS = 12;
export const greyAt = (column: number, row: number) => 12 * column + 5 * row + 10;

/** Quality 100. */
export const greyJpeg = () =>
  bytes(
    '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAAEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQH/wAALCAAMABABAREA/8QAHwAAAQUBAQEBAQEAAAAAAAAAAAECAwQFBgcICQoL/8QAtRAAAgEDAwIEAwUFBAQAAAF9AQIDAAQRBRIhMUEGE1FhByJxFDKBkaEII0KxwRVS0fAkM2JyggkKFhcYGRolJicoKSo0NTY3ODk6Q0RFRkdISUpTVFVWV1hZWmNkZWZnaGlqc3R1dnd4eXqDhIWGh4iJipKTlJWWl5iZmqKjpKWmp6ipqrKztLW2t7i5usLDxMXGx8jJytLT1NXW19jZ2uHi4+Tl5ufo6erx8vP09fb3+Pn6/9oACAEBAAA/APwr/Yk+En/II/0X/nh/B/u+1f2AfsSfCT/kEf6L/wA8P4P932r8Df2JPDWk/wDEo/0f/nh3X/Z/2a/sA/Yk8NaT/wASj/R/+eHdf9n/AGa//9k=',
  );

/** Quality 100, progressive. */
export const progressiveJpeg = () =>
  bytes(
    '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAAEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQH/wgALCAAMABABAREA/8QAFQABAQAAAAAAAAAAAAAAAAAACAn/2gAIAQEAAAABCtgANYD/xAAYEAACAwAAAAAAAAAAAAAAAAAABgMEBf/aAAgBAQABBQJJyRJyRJrRCTWiP//EABcQAAMBAAAAAAAAAAAAAAAAAAADIlH/2gAIAQEABj8CVOCpwVOCpw//xAAXEAADAQAAAAAAAAAAAAAAAAAAYeFx/9oACAEBAAE/IZ/CfwlqRLUj/9oACAEBAAAAEA//xAAXEAEAAwAAAAAAAAAAAAAAAAAAsdHw/9oACAEBAAE/EN3Bu4L1C9Q//9k=',
  );

/** Quality 100, without subsampling. */
export const colourJpeg = () =>
  bytes(
    '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAAEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQH/2wBDAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQH/wAARCAAMABADAREAAhEBAxEB/8QAHwAAAQUBAQEBAQEAAAAAAAAAAAECAwQFBgcICQoL/8QAtRAAAgEDAwIEAwUFBAQAAAF9AQIDAAQRBRIhMUEGE1FhByJxFDKBkaEII0KxwRVS0fAkM2JyggkKFhcYGRolJicoKSo0NTY3ODk6Q0RFRkdISUpTVFVWV1hZWmNkZWZnaGlqc3R1dnd4eXqDhIWGh4iJipKTlJWWl5iZmqKjpKWmp6ipqrKztLW2t7i5usLDxMXGx8jJytLT1NXW19jZ2uHi4+Tl5ufo6erx8vP09fb3+Pn6/8QAHwEAAwEBAQEBAQEBAQAAAAAAAAECAwQFBgcICQoL/8QAtREAAgECBAQDBAcFBAQAAQJ3AAECAxEEBSExBhJBUQdhcRMiMoEIFEKRobHBCSMzUvAVYnLRChYkNOEl8RcYGRomJygpKjU2Nzg5OkNERUZHSElKU1RVVldYWVpjZGVmZ2hpanN0dXZ3eHl6goOEhYaHiImKkpOUlZaXmJmaoqOkpaanqKmqsrO0tba3uLm6wsPExcbHyMnK0tPU1dbX2Nna4uPk5ebn6Onq8vP09fb3+Pn6/9oADAMBAAIRAxEAPwD0Tx/rX+vy/wDe7/X/ACf59TX+U3DeAfue6lt0/pfgf5A/Q28K3/wlf7P/AM+fsS/unxF4/wBaz5/z/wB7v/n/AD74A/fOHMAv3d9dtF/wND/rB+ht4Vr/AISv9mf/AC5+y/7v90+j/H91MTP839719SPX/P4Cvy7huhTfs7pvbdn+Gv0NuHsq/wCEr/Z1/wAue393+6fEXxAu5/33zf3v89ff/OTn994do04+ytFa23+R/wBYP0NuH8r/AOEr9x/z56r+75H/2Q==',
  );

/** Four components, as a printer wants them. */
export const cmykJpeg = () =>
  bytes(
    '/9j/7gAOQWRvYmUAZAAAAAAA/9sAQwADAgIDAgIDAwMDBAMDBAUIBQUEBAUKBwcGCAwKDAwLCgsLDQ4SEA0OEQ4LCxAWEBETFBUVFQwPFxgWFBgSFBUU/8AAFAgADAAQBEMRAE0RAFkRAEsRAP/EAB8AAAEFAQEBAQEBAAAAAAAAAAABAgMEBQYHCAkKC//EALUQAAIBAwMCBAMFBQQEAAABfQECAwAEEQUSITFBBhNRYQcicRQygZGhCCNCscEVUtHwJDNicoIJChYXGBkaJSYnKCkqNDU2Nzg5OkNERUZHSElKU1RVVldYWVpjZGVmZ2hpanN0dXZ3eHl6g4SFhoeIiYqSk5SVlpeYmZqio6Slpqeoqaqys7S1tre4ubrCw8TFxsfIycrS09TV1tfY2drh4uPk5ebn6Onq8fLz9PX29/j5+v/aAA4EQwBNAFkASwAAPwD6Z+Nvi7/j4+f1719M/G3xd/x8fP696+mfjb4u/wCPj5/XvX0z8bfF3/Hx8/r3r8//AI2+Lv8Aj4+f171+f/xt8Xf8fHz+vevz/wDjb4u/4+Pn9e9fn/8AG3xd/wAfHz+vevqb426lP/pHz+tfU3xt1Kf/AEj5/Wvqb426lP8A6R8/rX1N8bdSn/0j5/Wvz/8AjbqU/wDpHz+tfn/8bdSn/wBI+f1r8/8A426lP/pHz+tfn/8AG3Up/wDSPn9a/9k=',
  );

/** The grey JPEG with an EXIF block that holds this orientation and nothing else. */
export function withOrientation(orientation: number): Uint8Array {
  // Exif header, TIFF header, one directory with one entry: tag 0112, SHORT, one value (EXIF 2.3, 4.6).
  const tiff = [
    0x4d,
    0x4d,
    0,
    42,
    0,
    0,
    0,
    8,
    0,
    1,
    1,
    0x12,
    0,
    3,
    0,
    0,
    0,
    1,
    0,
    orientation,
    0,
    0,
    0,
    0,
    0,
    0,
  ];
  const block = [0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff];
  const jpeg = greyJpeg();
  return Uint8Array.from([0xff, 0xd8, 0xff, 0xe1, 0, block.length + 2, ...block, ...jpeg.subarray(2)]);
}

/** The JPEG with a colour profile in APP2 (ICC.1:2022 B.4), in as many pieces and in this order. */
export function inPieces(
  jpeg: Uint8Array,
  profile: Uint8Array,
  order: readonly number[],
  count = order.length,
): Uint8Array {
  const size = Math.ceil(profile.length / count);
  const segments = order.flatMap((number) => {
    const piece = profile.subarray((number - 1) * size, number * size);
    const length = 2 + 14 + piece.length;
    return [0xff, 0xe2, length >> 8, length & 255, ...Buffer.from('ICC_PROFILE\0'), number, count, ...piece];
  });
  return Uint8Array.from([...jpeg.subarray(0, 2), ...segments, ...jpeg.subarray(2)]);
}
