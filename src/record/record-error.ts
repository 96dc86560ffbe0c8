import type { PictureNotLookedAt } from './deidentify.ts';
import type { HoldsBackslash, ValueTooLong } from './dicom/dicom-write.ts';
import type { GspsFailure } from './dicom/gsps.ts';
import type { ReadBackFailure } from './dicom/read-back.ts';
import type { PictureFailure } from './dicom/sc.ts';
import type { SourceFailure } from './dicom/source.ts';
import type { SrFailure } from './dicom/sr.ts';
import type { PdfFailure } from './pdf/pdf-failure.ts';

/** Why a record is not written, or marks are not read from one. */
export type RecordError =
  | SourceFailure
  | SrFailure
  | GspsFailure
  | PictureFailure
  | PictureNotLookedAt
  | ValueTooLong
  | HoldsBackslash
  | ReadBackFailure
  | PdfFailure;

const whole = (count: number): string => count.toLocaleString('en-GB');

/** Up to ten characters with their code points: what a person can look for in a text. */
const characterList = (characters: readonly string[]): string =>
  characters
    .slice(0, 10)
    .map(
      (character) =>
        `“${character}” (U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')})`,
    )
    .join(', ');

/** What happened and what to do next. */
function parts(error: RecordError): readonly [happened: string, next: string] {
  switch (error.kind) {
    case 'not-dicom':
      return [
        'is not a DICOM file, so it has no identity to refer to',
        'Use the PDF, the note or the table, or open the DICOM film it was made from',
      ];
    case 'source-damaged':
      return [`could not be read to its end (${error.detail})`, 'Ask for the film again'];
    case 'no-ids':
      return [
        `lacks ${error.missing.join(', ')}, without which nothing can refer to it`,
        'Ask for the film again from the archive, or use the PDF, the note or the table',
      ];
    case 'no-readings':
      return [
        'has no reading on a film that DICOM can refer to',
        'Place both axes on a DICOM film, or use the PDF, the note or the table',
      ];
    case 'different-patients':
      return [
        `has films that name different patients (${error.films[0]}; ${error.films[1]})`,
        'Take out the film that does not belong to it',
      ];
    case 'no-such-film':
      return ['does not hold the film that is asked for', 'Choose one of its films'];
    case 'turn-not-quarter':
      return [
        `is turned by ${Math.round(error.turnDegrees)}°, and a presentation state can only turn by quarters`,
        'Turn the film to 0, 90, 180 or 270°, or write a snapshot',
      ];
    case 'colour-film':
      return [
        `is stored in colour (${error.photometric}), and a greyscale presentation state cannot refer to it`,
        'Write the report or a snapshot',
      ];
    case 'nothing-placed':
      return ['has nothing placed on it', 'Place an axis first'];
    case 'no-pixels':
      return [
        `gave a picture of ${whole(error.columns)} × ${whole(error.rows)} pixels with ${whole(error.bytes)} bytes, where ${whole(error.expectedBytes)} are needed`,
        'Show the film on the plate and try again',
      ];
    case 'too-large':
      return [
        `gave a picture of ${whole(error.columns)} × ${whole(error.rows)} pixels; at most ${whole(error.limitPixels)} are written, and ${whole(error.limitSide)} along a side`,
        'Make the picture smaller',
      ];
    case 'picture-not-looked-at':
      return [
        'is about to leave without the patient’s name, and nobody has looked at its picture yet',
        'Look at the whole picture for a name or a number that was burned in',
      ];
    case 'value-too-long':
      return [
        `has a value of ${error.length} characters for ${error.keyword}, which holds ${error.limit}`,
        'Shorten it where it comes from; it is not cut here',
      ];
    case 'holds-backslash':
      return [
        `has a backslash in ${error.keyword}, where DICOM takes it for the end of one value and the start of another`,
        'Put another sign in its place where the text comes from',
      ];
    case 'object-damaged':
      return [`is a damaged DICOM file (${error.detail})`, 'Use another copy of it'];
    case 'other-object':
      return [
        `is a DICOM object of another kind (${error.sopClassUid || 'not said'})`,
        'Open a report or presentation state that Raybend wrote; films are dropped on a case',
      ];
    case 'foreign':
      return [
        `was written by another program (${error.manufacturer || 'not said'}) and holds no marks of this one`,
        'Open a report or presentation state that Raybend wrote',
      ];
    case 'mark-unreadable':
      return [
        `holds a mark, number ${error.which}, that cannot be read: ${error.problem}`,
        'Use another copy of it; no mark was taken over',
      ];
    case 'missing-glyph':
      return [
        `holds characters that the fonts of the page do not have: ${characterList(error.characters)}`,
        'Write them otherwise',
      ];
    case 'font-unreadable':
      return [`cannot be set, because a font file is damaged (${error.detail})`, 'Reload the page'];
    case 'picture-unreadable':
      return [`holds a picture that cannot be put on a page (${error.detail})`, 'Make the picture again'];
    case 'words-too-long':
      return [
        `has room for about ${Math.floor((100 * error.roomPoints) / error.neededPoints)} % of the words from the clinic`,
        'Shorten them; nothing is cut off here',
      ];
    case 'no-angle':
      return ['has no angle of the injured hand', 'Place both axes on a film of the injured hand'];
    case 'undated-films':
      return [
        `cannot tell which film is the latest: there is no day for the ${error.films.join(', the ')}`,
        'Give each film its day after the injury',
      ];
  }
}

/**
 * One sentence or two for the person: what it is about, what happened, what to do next.
 *
 * @param subject - The film, file or case that it is about, as the person knows it: "Film 2", "report.dcm".
 */
export function recordErrorSentence(error: RecordError, subject: string): string {
  const [happened, next] = parts(error);
  return `${subject} ${happened}. ${next}.`;
}
