import { PDFDocument, type PDFImage } from 'pdf-lib';
import { failure, type Result, success } from '../../geometry/result.ts';
import { embedFaces, type FaceFiles, type Faces } from './faces.ts';
import type { PdfFailure } from './pdf-failure.ts';

/** A document that is being made. */
export interface Making {
  readonly document: PDFDocument;
  readonly faces: Faces;
  /** Characters that no face has, as they come up while drawing. */
  readonly missing: Set<string>;
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
  return faces.ok ? success({ document, faces: faces.value, missing: new Set() }) : faces;
}

/** A PNG as a picture of the document; its text and other chunks are left behind. */
export async function embedPicture(
  { document }: Making,
  png: Uint8Array,
): Promise<Result<PDFImage, PdfFailure>> {
  try {
    return success(await document.embedPng(png));
  } catch (thrown) {
    const detail = thrown instanceof Error ? thrown.message : String(thrown);
    return failure({ kind: 'picture-unreadable', detail });
  }
}

/** The bytes of the document, unless a character could not be set. */
export async function finishPdf({ document, missing }: Making): Promise<Result<Uint8Array, PdfFailure>> {
  if (missing.size > 0) return failure({ kind: 'missing-glyph', characters: [...missing] });
  return success(await document.save({ addDefaultPage: false, updateFieldAppearances: false }));
}
