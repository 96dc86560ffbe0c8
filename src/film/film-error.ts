import type { FilmError } from './film.ts';

const whole = (count: number) => count.toLocaleString('en-GB');

const FORMAT_NAMES = { dicom: 'DICOM', png: 'PNG', jpeg: 'JPEG' } as const;

const ASK_FOR_ANOTHER = 'Ask for the film again';

/** What happened and what to do, without the name of the file. */
function parts(error: FilmError): readonly [happened: string, next: string] {
  switch (error.kind) {
    case 'empty-file':
      return ['is empty: it holds no bytes', 'Copy or export it again'];
    case 'not-a-film':
      return [
        error.looksLike === null
          ? 'is not a film this tool knows'
          : `is not a film this tool opens: it looks like ${error.looksLike}`,
        'Open a DICOM radiograph, or a PNG or JPEG picture of one',
      ];
    case 'damaged':
      return [`is a damaged ${FORMAT_NAMES[error.format]} file: ${error.detail}`, ASK_FOR_ANOTHER];
    case 'truncated':
      return [
        `is cut short: its picture needs ${whole(error.expectedBytes)} bytes and ${whole(error.foundBytes)} are there`,
        'Copy or export it again',
      ];
    case 'no-pixel-data':
      return [
        error.sopClassName === null
          ? 'holds no picture'
          : `holds no picture: it is a DICOM ${error.sopClassName}`,
        'Open the radiograph itself, or the whole folder it lies in',
      ];
    case 'unsupported-transfer-syntax':
      return [
        `is compressed as ${error.name} (${error.uid}), which this tool does not read`,
        'Export it uncompressed, or as JPEG Lossless or JPEG 2000',
      ];
    case 'unsupported-picture':
      return [`holds a kind of picture this tool does not read: ${error.detail}`, ASK_FOR_ANOTHER];
    case 'codec-not-loaded':
      return [
        `needs the ${error.codec} decoder of this app, which could not be loaded`,
        'Check the connection and open the film again',
      ];
    case 'missing-attribute':
      return [`lacks ${error.keyword} ${error.tag}, without which it cannot be shown`, ASK_FOR_ANOTHER];
    case 'bad-attribute':
      return [
        `says ${error.keyword} ${error.tag} is ${error.found}, where ${error.wanted} is wanted`,
        ASK_FOR_ANOTHER,
      ];
    case 'part-not-in-picture':
      return [
        `is ${whole(error.columns)} × ${whole(error.rows)} pixels, and the part of it that the case holds does not lie on it`,
        'Open the picture that the case was made with',
      ];
    case 'too-large':
      return [
        `says it is ${whole(error.columns)} × ${whole(error.rows)} pixels, more than the ${whole(error.limitPixels)} this tool opens`,
        'Export it at a smaller size, or check that the file is sound',
      ];
  }
}

/**
 * One sentence for the person: which file, what happened, what to do next.
 *
 * @param error - Why the film was not opened.
 * @param fileName - Shown as given; it is not kept anywhere.
 */
export function sentence(error: FilmError, fileName: string): string {
  const [happened, next] = parts(error);
  return `“${fileName}” ${happened}. ${next}.`;
}
