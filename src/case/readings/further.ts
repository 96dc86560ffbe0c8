import type { LengthScale } from '../../geometry/length-scale.ts';
import type { PlacingError } from '../../geometry/placing.ts';
import type { Measured } from '../../geometry/propagate.ts';
import type { FilmRecord, InjuryRecord, SettingsRecord } from '../document.ts';
import type { MarkedFilm } from '../film-marks.ts';
import { placingOn } from '../film-placing.ts';
import type { KnownReading, Quantity } from '../reading.ts';
import type { FilmAngle } from './film-angle.ts';
import { lengthScaleOf } from './film-scale.ts';
import { known } from './known.ts';

/** A film with all that readings beyond the angle need. */
export interface FilmToRead extends MarkedFilm {
  /** What the film is called in sentences. */
  readonly name: string;
  readonly angle: FilmAngle | null;
}

/** What every length on a film rests on. */
export interface LengthGround {
  readonly placing: PlacingError;
  readonly scale: LengthScale;
}

/** Null when lengths on this film have no unit yet; `groundLacks` says what to do. */
export function groundOf(
  film: MarkedFilm,
  settings: SettingsRecord,
  injury: InjuryRecord,
): LengthGround | null {
  const placing = placingOn(film, settings, injury.ray);
  const scale = lengthScaleOf(film);
  return placing === null || scale === null ? null : { placing, scale };
}

export const groundLacks = (name: string): string =>
  `The ${name} has no scale: measure an object of known size on it, or place the length of the bone for a share of it.`;

/** A displacement as a reading: no sign, no apex. */
export const displacement = (
  film: FilmRecord,
  quantity: Quantity,
  measured: Measured & { readonly unit?: KnownReading['unit'] },
  words: Pick<KnownReading, 'definition' | 'leavesOut' | 'basis'>,
): KnownReading =>
  known(film, quantity, measured, {
    unit: measured.unit ?? 'millimetres',
    signed: false,
    apex: null,
    constructions: [],
    provenances: [],
    ...words,
  });
