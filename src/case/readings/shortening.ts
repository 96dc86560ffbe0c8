import { segmentLength } from '../../geometry/length.ts';
import { overlapAlong, shorteningByOtherHand, shorteningByRatio } from '../../geometry/shortening.ts';
import type { InjuryRecord, SettingsRecord } from '../document.ts';
import { otherFinger } from '../finger.ts';
import type { Reading } from '../reading.ts';
import { magnificationWords, segmentOn } from './film-scale.ts';
import { displacement, type FilmToRead, groundLacks, groundOf } from './further.ts';
import { headLineReadings } from './head-line.ts';
import { missing } from './known.ts';
import { inView } from './names.ts';
import { shorteningLacks } from './shortening-lacks.ts';

/**
 * The shortening of the bone on one film of the injured hand, by every method whose marks are there. None where
 * nothing was placed for it.
 */
export function shorteningOn(
  film: FilmToRead,
  others: readonly FilmToRead[],
  injury: InjuryRecord,
  settings: SettingsRecord,
): readonly Reading[] {
  // The other hand in the same view; a bone seen from elsewhere has another length.
  const inThisView = others.filter(({ film: its }) => its.view !== null && its.view === film.film.view);
  const other =
    inThisView.find((one) => otherFinger(one.film, one.name, injury) === null) ?? inThisView[0] ?? null;
  const mismatch = other && otherFinger(other.film, other.name, injury);
  if (mismatch) return againstOtherFinger(film, mismatch, injury, settings);
  return [
    byOtherHand(film, other, injury, settings),
    byNeighbours(film, other, injury, settings),
    ...headLineReadings(film, other, injury, settings),
    byOverlap(film, injury, settings),
  ].filter((reading) => reading !== null);
}

/** What is read without the other hand stays; what is read against it says why it cannot be. */
function againstOtherFinger(
  film: FilmToRead,
  mismatch: string,
  injury: InjuryRecord,
  settings: SettingsRecord,
): readonly Reading[] {
  return [
    ...(film.marks.length ? [missing(film.film, 'shortening-by-other-hand', mismatch)] : []),
    ...(film.marks['reference-length'] ? [missing(film.film, 'shortening-by-neighbours', mismatch)] : []),
    ...headLineReadings(film, null, injury, settings).map((reading) =>
      reading.quantity === 'shortening-by-head-line'
        ? missing(film.film, 'shortening-by-head-line', mismatch)
        : reading,
    ),
    byOverlap(film, injury, settings),
  ].filter((reading) => reading !== null);
}

type Method = (
  film: FilmToRead,
  other: FilmToRead | null,
  injury: InjuryRecord,
  settings: SettingsRecord,
) => Reading | null;

const inSameView = ({ film: { view } }: FilmToRead): string =>
  view === null ? 'in the same view' : inView(view);

const TILT = 'a bone tilted out of the film looks shorter';

const byOtherHand: Method = (film, other, injury, settings) => {
  if (!film.marks.length) return null;
  if (!other?.marks.length) {
    const lacks =
      other === null
        ? `A film of the other hand ${inSameView(film)} is missing, with the length of the bone placed on it, to see how much the bone on the ${film.name} is shortened: add it.`
        : `The length of the bone on the ${other.name} is missing: place it, and the difference is the shortening.`;
    return missing(film.film, 'shortening-by-other-hand', lacks);
  }
  const [here, there] = [film, other].map((one) => {
    const ground = groundOf(one, settings, injury);
    const segment = segmentOn(one, one.marks.length);
    // A share of the bone is a share of different bones on the two hands.
    if (ground?.scale.kind !== 'millimetres' || segment === null) return null;
    const length = segmentLength(segment, ground.placing, ground.scale);
    return length.ok ? { length: length.value, scale: ground.scale } : null;
  });
  if (!here || !there) {
    return missing(
      film.film,
      'shortening-by-other-hand',
      `The lengths on the ${film.name} and on the ${other.name} cannot be compared without a scale on both: measure an object of known size on them, or place the length of a neighbour on both.`,
    );
  }
  const shortening = shorteningByOtherHand(here.length, there.length);
  return displacement(film.film, 'shortening-by-other-hand', shortening, {
    definition: `Length of the bone on the ${other.name} less its length on the ${film.name}${magnificationWords(here.scale)}.`,
    leavesOut: `The interval leaves out that two sound hands differ, and that ${TILT}.`,
    basis: `Other hand, ${other.name}`,
  });
};

const byNeighbours: Method = (film, other, injury, settings) => {
  const quantity = 'shortening-by-neighbours';
  if (!film.marks['reference-length'] && !other?.marks['reference-length']) return null;
  const lacks = lengthsLack(film, other);
  if (lacks !== null) return missing(film.film, quantity, lacks);
  const [here, there] = [film, other].map((one) => {
    const broken = one && segmentOn(one, one.marks.length);
    const reference = one && segmentOn(one, one.marks['reference-length']);
    const placing = one && groundOf(one, settings, injury)?.placing;
    return broken && reference && placing ? { broken, references: [reference], placing } : null;
  });
  const ground = groundOf(film, settings, injury);
  if (!here || !there || other === null) return null;
  if (ground === null) return missing(film.film, quantity, groundLacks(film.name));
  const shortening = shorteningByRatio(here, there, ground.scale);
  if (!shortening.ok) return missing(film.film, quantity, shorteningLacks(shortening.error, film.name));
  return displacement(film.film, quantity, shortening.value, {
    definition: `Length that the bone on the ${film.name} would have if it stood to its neighbour as on the ${other.name}, less its length${magnificationWords(ground.scale)}.`,
    leavesOut: `The interval leaves out that ${TILT}, each by its own tilt.`,
    basis: `Ratio to a neighbour on the other hand, ${other.name}`,
  });
};

/** Which of the four lengths is not placed yet; null: none. */
const lengthsLack = (film: FilmToRead, other: FilmToRead | null): string | null =>
  lengthLacks(film) ??
  (other === null
    ? `A film of the other hand ${inSameView(film)} is missing, with the lengths of the bone and of the same neighbour placed on it: add it.`
    : lengthLacks(other));

function lengthLacks({ marks, name }: FilmToRead): string | null {
  const wanted = !marks.length ? 'bone' : !marks['reference-length'] ? 'same neighbour' : null;
  return wanted === null
    ? null
    : `Shortening by a neighbour needs the length of the ${wanted} on the ${name} too: place it.`;
}

function byOverlap(film: FilmToRead, injury: InjuryRecord, settings: SettingsRecord): Reading | null {
  const quantity = 'shortening-by-overlap';
  const tips = segmentOn(film, film.marks['fracture-tips']);
  if (tips === null) return null;
  const axis = film.angle?.angle?.measured.axes.proximal ?? segmentOn(film, film.marks.length);
  if (axis === null) {
    return missing(
      film.film,
      quantity,
      `The direction of the bone on the ${film.name} is not known: place both axes or the length of the bone.`,
    );
  }
  const ground = groundOf(film, settings, injury);
  if (ground === null) return missing(film.film, quantity, groundLacks(film.name));
  const ends = { proximalFragment: tips.from, distalFragment: tips.to };
  const overlap = overlapAlong(axis, ends, ground.placing, ground.scale);
  if (!overlap.ok) return missing(film.film, quantity, shorteningLacks(overlap.error, film.name));
  return displacement(film.film, quantity, overlap.value, {
    definition: `How far the fragments on the ${film.name} overlap along the bone, between two tips that lay together${magnificationWords(ground.scale)}.`,
    leavesOut: 'The interval leaves out that the two tips may not have lain together before.',
    basis: null,
  });
}
