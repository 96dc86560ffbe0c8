import sans from '@fontsource/source-sans-3/files/source-sans-3-latin-400-normal.woff?url';
import sansBold from '@fontsource/source-sans-3/files/source-sans-3-latin-600-normal.woff?url';
import sansExtended from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-400-normal.woff?url';
import sansBoldExtended from '@fontsource/source-sans-3/files/source-sans-3-latin-ext-600-normal.woff?url';
import serifItalic from '@fontsource/source-serif-4/files/source-serif-4-latin-400-italic.woff?url';
import serif from '@fontsource/source-serif-4/files/source-serif-4-latin-400-normal.woff?url';
import serifBold from '@fontsource/source-serif-4/files/source-serif-4-latin-600-normal.woff?url';
import serifItalicExtended from '@fontsource/source-serif-4/files/source-serif-4-latin-ext-400-italic.woff?url';
import serifExtended from '@fontsource/source-serif-4/files/source-serif-4-latin-ext-400-normal.woff?url';
import serifBoldExtended from '@fontsource/source-serif-4/files/source-serif-4-latin-ext-600-normal.woff?url';
import { reasonOf, success } from '../../geometry/result.ts';
import type { FaceFiles, FaceName } from '../../record/pdf/faces.ts';
import { type Made, refused } from './made.ts';

/** A character is looked for in the first file of its face, then in the second. */
const URLS: Readonly<Record<FaceName, readonly string[]>> = {
  sans: [sans, sansExtended],
  sansBold: [sansBold, sansBoldExtended],
  serif: [serif, serifExtended],
  serifBold: [serifBold, serifBoldExtended],
  serifItalic: [serifItalic, serifItalicExtended],
};

/** What a page on the screen calls a face. */
export const familyOf = (face: FaceName): string => `raybend-page-${face}`;

let loaded: Promise<FaceFiles> | null = null;

/** The fonts of the printed pages, from the app's own files, fetched once; the screen shows pages in them too. */
export async function pageFonts(): Promise<Made<FaceFiles>> {
  loaded ??= load();
  try {
    return success(await loaded);
  } catch (thrown) {
    loaded = null;
    const why = reasonOf(thrown);
    return refused(
      `The fonts of the page could not be loaded (${why}). Try again when the app can be reached; the snapshot, the note and the tables need none and can leave now.`,
    );
  }
}

async function load(): Promise<FaceFiles> {
  const faces = await Promise.all(
    (Object.keys(URLS) as FaceName[]).map(async (face) => {
      const files = await Promise.all(URLS[face].map(fetched));
      // Of two files of a family the later one is asked first, so the first one comes last.
      for (const file of files.toReversed()) {
        document.fonts.add(await new FontFace(familyOf(face), file.slice().buffer).load());
      }
      return [face, files] as const;
    }),
  );
  return Object.fromEntries(faces) as unknown as FaceFiles;
}

async function fetched(url: string): Promise<Uint8Array<ArrayBuffer>> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`answer ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}
