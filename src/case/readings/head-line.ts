import { type Measured, stated } from '../../geometry/propagate.ts';
import { headLineDistance, shorteningByHeadLine } from '../../geometry/shortening.ts';
import { planeScale, toPlane } from '../../geometry/spacing.ts';
import type { InjuryRecord, SettingsRecord } from '../document.ts';
import type { Reading } from '../reading.ts';
import { pointsOf } from '../shape-points.ts';
import { segmentOn } from './film-scale.ts';
import { displacement, type FilmToRead, groundLacks, groundOf } from './further.ts';
import { missing } from './known.ts';
import { shorteningLacks } from './shortening-lacks.ts';

/** How far the head of a sound small finger lies below the line through the heads of middle and ring. */
const GAP = {
  leastMm: 0,
  mostMm: 2,
  citation: 'teaching page on the length of the fifth metacarpal, roentgenrayreader.blogspot.com, 2010',
} as const;

/** The published gap, of the small finger and in millimetres alone; null where it does not hold or was not asked for. */
function publishedGap(here: Distance, { ray }: InjuryRecord, { normal }: SettingsRecord): Measured | null {
  if (ray !== 'small' || here.unit !== 'millimetres') return null;
  if (normal !== 'best' && normal !== 'published') return null;
  // JCGM 100:2008, 4.3.7: every gap in the range held equally likely.
  return stated(
    (GAP.leastMm + GAP.mostMm) / 2,
    (GAP.mostMm - GAP.leastMm) / 2 / Math.sqrt(3),
    'spread between people',
    {
      text: `published gap of 2 mm or less, ${GAP.citation}`,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
    },
  );
}

/**
 * How far the head lies below the line through two other heads, and what that says of shortening: against the other
 * hand, else against the published gap of the small finger. Empty where nothing was placed for it.
 */
export function headLineReadings(
  film: FilmToRead,
  other: FilmToRead | null,
  injury: InjuryRecord,
  settings: SettingsRecord,
): readonly Reading[] {
  const begun = begunOnly(film);
  if (begun !== null) return [missing(film.film, 'head-line-distance', begun)];
  const here = distanceBelowHeadLine(film, injury, settings);
  if (here === null) return [];
  if ('lacks' in here) return [missing(film.film, 'head-line-distance', here.lacks)];
  const distance = displacement(film.film, 'head-line-distance', here, {
    definition: `Distance of the farthest point of the head below the line through two neighbouring heads on the ${film.name}.`,
    leavesOut: 'It is no shortening yet: the head of a sound bone may lie below the line too.',
    basis: null,
  });
  const there = other && distanceBelowHeadLine(other, injury, settings);
  if (other === null || there === null) {
    const gap = publishedGap(here, injury, settings);
    const quantity = 'shortening-by-head-line';
    return [
      distance,
      gap === null
        ? missing(
            film.film,
            quantity,
            `How far the head lies below the line on the other hand is not known: place the head line and the farthest point of the head on its film in the same view.`,
          )
        : displacement(film.film, quantity, shorteningByHeadLine(here, gap), {
            definition: `Distance of the head below the head line on the ${film.name}, less the gap of sound small fingers.`,
            leavesOut:
              'The interval leaves out tilt of the hand. The gap holds for the line through the heads of the middle and ring finger and for no other.',
            basis: `Published gap, 2 mm or less, held equally likely from 0 to 2 mm (${GAP.citation})`,
          }),
    ];
  }
  if ('lacks' in there) return [distance, missing(film.film, 'shortening-by-head-line', there.lacks)];
  if (there.unit !== here.unit || here.unit !== 'millimetres') {
    const lacks = `The head lines on the ${film.name} and on the ${other.name} cannot be compared without a scale on both: measure an object of known size on them.`;
    return [distance, missing(film.film, 'shortening-by-head-line', lacks)];
  }
  return [
    distance,
    displacement(film.film, 'shortening-by-head-line', shorteningByHeadLine(here, there), {
      definition: `Distance of the head below the head line on the ${film.name}, less the same on the ${other.name}.`,
      leavesOut: 'The interval leaves out that two sound hands differ, and tilt of the hand.',
      basis: `Other hand, ${other.name}`,
    }),
  ];
}

/** What is still to be placed where only one of the two marks is there. */
function begunOnly({ marks, name }: FilmToRead): string | null {
  const [line, head] = [marks['head-line'], marks['head-point']];
  if (Boolean(line) === Boolean(head)) return null;
  return `The distance to the head line on the ${name} needs the ${line ? 'farthest point of the head' : 'head line'} too: place it.`;
}

type Distance = Measured & { readonly unit: 'millimetres' | 'percent of bone' };

/** Null while the head line or the head's point is not placed on the film. */
function distanceBelowHeadLine(
  film: FilmToRead,
  injury: InjuryRecord,
  settings: SettingsRecord,
): Distance | { readonly lacks: string } | null {
  const { marks } = film;
  const plane = planeScale(film.film.spacing);
  const line = segmentOn(film, marks['head-line']);
  const head = marks['head-point']?.shape;
  if (line === null || head?.construction !== 'point') return null;
  const base = (marks.length ?? marks['proximal-axis'])?.shape;
  const proximal = base && pointsOf(base)[0];
  if (proximal === undefined) {
    return {
      lacks: `Which side of the head line on the ${film.name} is the wrist's is not known: place the length of the bone.`,
    };
  }
  const ground = groundOf(film, settings, injury);
  if (ground === null) return { lacks: groundLacks(film.name) };
  const distance = headLineDistance({
    heads: [line.from, line.to],
    head: toPlane(head.at, plane),
    proximal: toPlane(proximal, plane),
    ...ground,
  });
  return distance.ok ? distance.value : { lacks: shorteningLacks(distance.error, film.name) };
}
