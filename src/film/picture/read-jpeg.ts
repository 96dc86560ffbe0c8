import { failure, type Result, success } from '../../geometry/result.ts';
import { assembleFilm, LIMIT_PIXELS, pictureGreyScale } from '../assemble.ts';
import { endsWithImageEnd, readJpegHeader } from '../codecs/codestream.ts';
import { decodeWithWasm } from '../codecs/wasm-decoder.ts';
import type { Film, FilmError } from '../film.ts';
import type { FilmTools } from '../film-tools.ts';
import { mostUnpackedBytes } from '../inflate.ts';
import { SQUARE_PIXELS } from '../spacing.ts';
import { profileOfJpeg, toneOf } from './embedded-profile.ts';
import { exifOrientation } from './exif.ts';
import { type GreyPicture, greyOfColour, greyOfGrey } from './grey-picture.ts';
import { withoutProfile } from './jpeg-segments.ts';
import type { GreyOf } from './to-srgb.ts';
import { type PictureSamples, upright } from './upright.ts';

const damaged = (detail: string): FilmError => ({ kind: 'damaged', format: 'jpeg', detail });

/** Judges the picture by its own header before it is handed to the decoder. */
function refusal(bytes: Uint8Array): FilmError | null {
  const header = readJpegHeader(bytes);
  if (header === null) return damaged('it has no readable header');
  const { columns, rows, process, precision, components } = header;
  if (columns === 0 || rows === 0) return damaged(`its size is ${columns} × ${rows}`);
  if (columns * rows > LIMIT_PIXELS) return { kind: 'too-large', columns, rows, limitPixels: LIMIT_PIXELS };
  if (precision !== 8 || !['baseline', 'extended', 'progressive'].includes(process)) {
    return { kind: 'unsupported-picture', detail: `a ${process} JPEG of ${precision} bits outside DICOM` };
  }
  if (components !== 1 && components !== 3) {
    return { kind: 'unsupported-picture', detail: `a JPEG of ${components} colour components` };
  }
  if (columns * rows * components > mostUnpackedBytes(bytes.length)) {
    return damaged('it is far too short for its size');
  }
  return endsWithImageEnd(bytes) ? null : damaged('it stops before its end');
}

const toGrey = ({ components, samples }: PictureSamples, greyOf: GreyOf | null): GreyPicture =>
  components === 1 ? greyOfGrey(samples, greyOf) : greyOfColour(samples, 3, 255, greyOf);

/**
 * Reads a JPEG picture and turns it upright by its EXIF orientation. The same codec decodes it everywhere, so
 * that a film has the same grey values, and gives the same traced readings, in every browser; its colour profile
 * is applied by us for the same reason. Damage inside the compressed data cannot be seen: the codec goes on as best it can.
 */
export async function readJpeg(bytes: Uint8Array, tools: FilmTools): Promise<Result<Film, FilmError>> {
  const refused = refusal(bytes);
  if (refused !== null) return failure(refused);
  const decoded = await decodeWithWasm('jpeg', withoutProfile(bytes), tools);
  if (!decoded.ok) {
    return failure(
      decoded.error.kind === 'not-loaded'
        ? { kind: 'codec-not-loaded', codec: 'JPEG' }
        : damaged('its picture could not be read'),
    );
  }
  const picture = decoded.value;
  const orientation = exifOrientation(bytes);
  const turned = upright({ ...picture, samples: picture.bytes }, orientation);
  const tone = toneOf(profileOfJpeg(bytes), picture.components === 1 ? 'grey' : 'colour', 255);
  const { pixels, wasColour } = toGrey(turned, tone.greyOf);
  const { columns, rows } = turned;
  return success(
    assembleFilm({ columns, rows, pixels }, pictureGreyScale(8), SQUARE_PIXELS, {
      format: 'jpeg',
      modality: null,
      sopClassUid: null,
      transferSyntaxUid: null,
      viewPosition: null,
      laterality: null,
      patientOrientation: null,
      lossy: true,
      burnedIn: null,
      wasColour,
      notes: [
        ...(orientation === 1 ? [] : ['The picture was turned upright as its camera data (EXIF) asks.']),
        ...(tone.note === null ? [] : [tone.note]),
      ],
    }),
  );
}
