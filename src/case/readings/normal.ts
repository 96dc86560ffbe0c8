import { type Measured, stated } from '../../geometry/propagate.ts';
import { publishedNormal } from '../../tolerance/normal.ts';
import type { FilmRecord, InjuryRecord, SettingsRecord } from '../document.ts';
import { otherFinger } from '../finger.ts';
import type { FilmAngle } from './film-angle.ts';
import { inView } from './names.ts';

/** An angle that was measured, with the film it was measured on. */
export interface MeasuredFilm {
  readonly film: FilmRecord;
  /** What the film is called in sentences. */
  readonly name: string;
  readonly angle: NonNullable<FilmAngle['angle']>;
}

/** The normal to take off an angle; apex dorsal (or radial) positive, or a size where no side is marked. */
export interface Normal {
  readonly from: 'other-hand' | 'published' | 'zero';
  readonly measured: Measured;
  /** Where it comes from, in words. */
  readonly basis: string;
  /** How a published one was drawn otherwise than the reading, as one sentence; null: alike. */
  readonly mismatch: string | null;
  readonly spreadAssumed: boolean;
}

/** Either a normal, or a sentence that says why there is none and what to do. */
export type FoundNormal =
  | { readonly found: true; readonly normal: Normal }
  | { readonly found: false; readonly lacks: string };

/**
 * The normal for one measured angle, by what the case is set to: the other hand's, a published one, zero, or
 * the best of them that can be had, in this order.
 *
 * @param others - Measured films of the other hand.
 */
export function normalFor(
  injured: MeasuredFilm,
  others: readonly MeasuredFilm[],
  injury: InjuryRecord,
  choice: SettingsRecord['normal'],
): FoundNormal {
  switch (choice) {
    case 'other-hand':
      return fromOtherHand(injured, others, injury);
    case 'published':
      return fromPublished(injured, injury);
    case 'zero':
      return found(ZERO);
    case 'best': {
      const other = fromOtherHand(injured, others, injury);
      if (other.found) return other;
      const published = fromPublished(injured, injury);
      return published.found ? published : found(ZERO);
    }
  }
}

const found = (normal: Normal): FoundNormal => ({ found: true, normal });
const lacking = (lacks: string): FoundNormal => ({ found: false, lacks });

const ZERO: Normal = {
  from: 'zero',
  measured: stated(0, 0, 'normal taken as zero', {
    text: 'stated, not measured',
    degreesOfFreedom: Number.POSITIVE_INFINITY,
  }),
  basis: 'Taken as zero: nothing was taken off',
  mismatch: null,
  spreadAssumed: false,
};

function fromOtherHand(
  injured: MeasuredFilm,
  others: readonly MeasuredFilm[],
  injury: InjuryRecord,
): FoundNormal {
  const { film, name, angle } = injured;
  if (film.view === null)
    return lacking(
      `The view of the ${name} is not said: set it, to find the film of the other hand that goes with it.`,
    );
  const inThisView = others.filter((other) => other.film.view === film.view);
  const sameView = inThisView.filter((other) => otherFinger(other.film, other.name, injury) === null);
  if (sameView.length === 0) {
    const [wrong] = inThisView;
    const mismatch = wrong && otherFinger(wrong.film, wrong.name, injury);
    if (mismatch) return lacking(mismatch);
    return lacking(
      `The other hand is not measured ${inView(film.view)}: add its film and place both axes there.`,
    );
  }
  const alike = sameView.find(
    (other) => other.angle.proximal === angle.proximal && other.angle.distal === angle.distal,
  );
  if (alike === undefined) {
    return lacking(
      `The axes on the ${sameView[0]?.name} are built otherwise than on the ${name}: build both alike, then their difference means something.`,
    );
  }
  // A sound metacarpal is bent apex dorsal as seen from the side; seen from the front it may be bent either way.
  if (film.view === 'pa' && !(angle.measured.signed && alike.angle.measured.signed)) {
    return lacking(
      `Which way the bone is bent is not said: tap the radial side on the ${name} and on the ${alike.name}.`,
    );
  }
  return found({
    from: 'other-hand',
    measured: alike.angle.measured,
    basis: `Other hand, ${alike.name}`,
    mismatch: null,
    spreadAssumed: false,
  });
}

function fromPublished({ film, name, angle }: MeasuredFilm, injury: InjuryRecord): FoundNormal {
  const { ray, region } = injury;
  if (ray === null || region === null) {
    return lacking(
      'Which bone is broken, and where, is not said: choose the finger and the part of the bone.',
    );
  }
  const { proximal, distal } = angle;
  const published = publishedNormal({ ray, region, view: film.view, proximal, distal });
  if (!published.ok)
    return lacking(`${name.charAt(0).toUpperCase()}${name.slice(1)}: ${published.error.message}`);
  const { value, standardDeviation, spread, basis, citation, mismatch } = published.value;
  return found({
    from: 'published',
    measured: stated(value, standardDeviation, 'spread between people', {
      text: spread === 'published' ? `published SD, ${citation}` : 'assumed SD; the publication gives none',
      degreesOfFreedom: Number.POSITIVE_INFINITY,
    }),
    basis,
    mismatch,
    spreadAssumed: spread === 'assumed',
  });
}
