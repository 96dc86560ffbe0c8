import { failure, type Result } from '../geometry/result.ts';
import { readDicom } from './dicom/read-dicom.ts';
import type { Film, FilmError, FirstPicture } from './film.ts';
import type { FilmTools } from './film-tools.ts';
import { readJpeg } from './picture/read-jpeg.ts';
import { sniff } from './sniff.ts';

/**
 * Reads one picture of a file as a film. What the file is, is judged by its bytes and never by its name, so no
 * name is asked for; `sentence` in `film-error.ts` puts the name into the message.
 *
 * Never rejects because of what the bytes are: every failure is a `FilmError`. A hostile file can still make a
 * decoder slow, so call it in a worker that can be ended (`src/workers/decode.ts`).
 *
 * @param bytes - The whole file. Not changed.
 * @param frame - Which picture of a file that holds several, counted from 0; `film.frame.count` says how many.
 *   Throws RangeError when there is none of that number.
 * @param onFirst - Given a coarse picture before the whole is decoded, where that takes long and the compression holds
 *   one; it may be of a file that is refused afterwards.
 */
export async function readFilm(
  bytes: Uint8Array,
  tools: FilmTools,
  frame = 0,
  onFirst: ((picture: FirstPicture) => void) | null = null,
): Promise<Result<Film, FilmError>> {
  if (bytes.length === 0) return failure({ kind: 'empty-file' });
  const found = sniff(bytes);
  switch (found.kind) {
    case 'dicom':
      return readDicom(bytes, null, frame, tools, onFirst);
    case 'bare-dicom':
      return readDicom(bytes, found, frame, tools, onFirst);
    case 'png': {
      const { readPng } = await import('./picture/read-png.ts');
      return readPng(bytes);
    }
    case 'jpeg':
      return readJpeg(bytes, tools);
    case 'other':
      return failure({ kind: 'not-a-film', looksLike: found.looksLike });
  }
}
