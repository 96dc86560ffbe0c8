import fontkit from '@pdf-lib/fontkit';
import type { PDFDocument, PDFFont } from 'pdf-lib';
import { failure, type Result, success } from '../../geometry/result.ts';
import type { PdfFailure } from './pdf-failure.ts';
import { unpackWoff } from './woff.ts';

/** The faces of a page. Files are WOFF or TrueType; a character is looked for in them in this order. */
export interface FaceFiles {
  readonly sans: readonly Uint8Array[];
  readonly sansBold: readonly Uint8Array[];
  readonly serif: readonly Uint8Array[];
  readonly serifBold: readonly Uint8Array[];
  readonly serifItalic: readonly Uint8Array[];
}

export type FaceName = keyof FaceFiles;

/** A stretch of text that one font file can set. `composed` is the sign it stands for, drawn from two parts. */
interface Run {
  readonly text: string;
  readonly font: PDFFont;
  readonly composed: '≤' | '≥' | null;
}

/** The published web fonts have no ≤ and ≥; they are drawn as these with a line under them. */
const COMPOSED = { '≤': '<', '≥': '>' } as const;
const isComposed = (character: string): character is keyof typeof COMPOSED => character in COMPOSED;

/** One face: its fonts, and which characters each has. */
class Face {
  /** Of texts at a size of one point: a record is laid out at several sizes, and shaping a word is slow. */
  readonly #widths = new Map<string, number>();
  readonly #fonts: readonly { readonly font: PDFFont; readonly has: ReadonlySet<number> }[];

  constructor(fonts: readonly PDFFont[]) {
    this.#fonts = fonts.map((font) => ({ font, has: new Set(font.getCharacterSet()) }));
  }

  #fontFor(character: string): PDFFont | null {
    const codePoint = character.codePointAt(0) ?? 0;
    return this.#fonts.find(({ has }) => has.has(codePoint))?.font ?? null;
  }

  /** Characters of a text that none of the fonts has. */
  missing(text: string): readonly string[] {
    return Array.from(text).filter(
      (character) => this.#fontFor(isComposed(character) ? COMPOSED[character] : character) === null,
    );
  }

  /** The text in stretches of one font. What no font has is left out here and told by `missing`. */
  runs(text: string): readonly Run[] {
    const runs: Run[] = [];
    for (const character of text) {
      const composed = isComposed(character) ? character : null;
      const shown = composed === null ? character : COMPOSED[composed];
      const font = this.#fontFor(shown);
      if (font === null) continue;
      const last = runs.at(-1);
      if (last !== undefined && last.font === font && composed === null && last.composed === null) {
        runs[runs.length - 1] = { ...last, text: last.text + shown };
      } else {
        runs.push({ text: shown, font, composed });
      }
    }
    return runs;
  }

  width(text: string, size: number): number {
    let width = this.#widths.get(text);
    if (width === undefined) {
      width = this.runs(text).reduce((sum, run) => sum + run.font.widthOfTextAtSize(run.text, 1), 0);
      this.#widths.set(text, width);
    }
    return size * width;
  }
}

export type Faces = Readonly<Record<FaceName, Face>>;

/**
 * Puts the faces into a document. Only the glyphs that are used are written.
 *
 * Fails with `font-unreadable` for a file that is no font.
 */
export async function embedFaces(
  document: PDFDocument,
  files: FaceFiles,
): Promise<Result<Faces, PdfFailure>> {
  document.registerFontkit(fontkit);
  const faces: Partial<Record<FaceName, Face>> = {};
  for (const [name, bytes] of Object.entries(files) as [FaceName, readonly Uint8Array[]][]) {
    try {
      const fonts: PDFFont[] = [];
      for (const file of bytes) {
        const unpacked = unpackWoff(file);
        if (!unpacked.ok) return unpacked;
        fonts.push(await document.embedFont(unpacked.value, { subset: true }));
      }
      faces[name] = new Face(fonts);
    } catch (thrown) {
      return failure({ kind: 'font-unreadable', detail: thrown instanceof Error ? thrown.message : name });
    }
  }
  return success(faces as Faces);
}
