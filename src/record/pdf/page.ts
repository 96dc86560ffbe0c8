import { PDFDocument, type PDFImage } from 'pdf-lib';
import { failure, type Result, reasonOf, success } from '../../geometry/result.ts';
import { embedFaces, type FaceFiles, type Faces } from './faces.ts';
import type { PageDrawing, PageMark } from './page-drawing.ts';
import type { PdfFailure } from './pdf-failure.ts';

/** A document that is being made. */
export interface Making {
  readonly document: PDFDocument;
  readonly faces: Faces;
  /** Characters that no face has, as they come up while drawing. */
  readonly missing: Set<string>;
  /** One for each page, filled as it is drawn. */
  readonly pages: PageMark[][];
}

/** A finished PDF, and what stands on its pages. */
export interface PdfFile {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly pages: readonly PageDrawing[];
}

/**
 * Begins a PDF. It says which program made it and nothing else: no title, author, time or file identifier.
 *
 * @param language - RFC 5646 tag, for readers that read aloud.
 */
export async function beginPdf(files: FaceFiles, language: string): Promise<Result<Making, PdfFailure>> {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.setProducer('Raybend');
  document.setLanguage(language);
  const faces = await embedFaces(document, files);
  return faces.ok ? success({ document, faces: faces.value, missing: new Set(), pages: [] }) : faces;
}

/** A PNG as a picture of the document; its text and other chunks are left behind. */
export async function embedPicture(
  { document }: Making,
  png: Uint8Array,
): Promise<Result<PDFImage, PdfFailure>> {
  try {
    return success(await document.embedPng(png));
  } catch (thrown) {
    const detail = reasonOf(thrown);
    return failure({ kind: 'picture-unreadable', detail });
  }
}

/** The document, unless a character could not be set. */
export async function finishPdf({ document, missing, pages }: Making): Promise<Result<PdfFile, PdfFailure>> {
  if (missing.size > 0) return failure({ kind: 'missing-glyph', characters: [...missing] });
  const bytes = await document.save({ addDefaultPage: false, updateFieldAppearances: false });
  return success({ bytes: new Uint8Array(bytes), pages });
}
