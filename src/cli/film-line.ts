import { createHash } from 'node:crypto';
import { sopClass } from '../film/dicom/sop-class.ts';
import { transferSyntax } from '../film/dicom/transfer-syntax.ts';
import type { Film } from '../film/film.ts';
import { defaultLight } from '../film/light.ts';

/** What `raybend film` says of a film that opened. Nothing of it identifies a person. */
export type FilmLine = ReturnType<typeof describeFilm>;

const named = (uid: string | null, name: string | null) => (uid === null ? null : { uid, name });

/**
 * A film as plain data. `min` and `max` are of all stored values, those that the file says are no part of the picture
 * (`padding`) among them; `sha256` is of the same values. A film stored in colour has those of its greys.
 */
export function describeFilm(film: Film) {
  const { facts, grey } = film;
  const { transferSyntaxUid: syntax, sopClassUid } = facts;
  return {
    kind: facts.format,
    transferSyntax: named(syntax, syntax === null ? null : transferSyntax(syntax).name),
    rows: film.rows,
    columns: film.columns,
    bits: grey.bitsStored,
    signed: grey.signed,
    photometric: facts.stored?.photometric ?? grey.photometric,
    spacing: film.spacing,
    window: defaultLight(film).shown,
    padding: grey.padding,
    ...rangeOf(film),
    sha256: sha256Of(film),
    picture: (film.frame?.index ?? 0) + 1,
    pictures: film.frame?.count ?? 1,
    modality: facts.modality,
    sopClass: named(sopClassUid, sopClassUid === null ? null : (sopClass(sopClassUid)?.name ?? null)),
    viewPosition: facts.viewPosition,
    viewCode: facts.viewCode ?? null,
    laterality: facts.laterality,
    patientOrientation: facts.patientOrientation,
    wasColour: facts.wasColour,
    lossy: facts.lossy,
    burnedIn: facts.burnedIn,
    notes: facts.notes,
  };
}

function rangeOf(film: Film): { readonly min: number; readonly max: number } {
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  for (const value of film.levels[0]!.pixels) {
    if (value < min) min = value;
    if (value > max) max = value;
  }
  return { min, max };
}

/** SHA-256 over the stored values, row by row: one byte each where the file has 8 bits, else two, little endian. */
function sha256Of(film: Film): string {
  const { pixels } = film.levels[0]!;
  // Signed values of 8 bits are kept in 16 here.
  const bytesEach =
    pixels instanceof Int16Array && film.facts.stored?.bitsAllocated === 8 ? 1 : pixels.BYTES_PER_ELEMENT;
  const bytes = Buffer.alloc(bytesEach * pixels.length);
  if (bytesEach === 1) bytes.set(pixels);
  else pixels.forEach((value, index) => void bytes.writeUInt16LE(value & 0xffff, 2 * index));
  return createHash('sha256').update(bytes).digest('hex');
}
