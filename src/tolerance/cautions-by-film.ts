import { type Caution, type CautionRule, COMMON_PRACTICE, raise } from './caution.ts';
import type { AxisFacts, CautionFacts, FilmFacts } from './caution-facts.ts';

/** Below this length an axis placed to 0.5 mm at both ends is uncertain by 0.5·√2/6 rad = 6.8° (k = 1). */
const SHORT_LEVER_MM = 6;

/** At this length placing alone leaves an axis uncertain by √2/20 rad = 4.1° (k = 1). */
const LEAST_LENGTH_IN_PLACING_ERRORS = 20;

const AXIS_SOURCE = 'JCGM 100:2008, 5.1.2: u = √2·σ/L for an axis through two points';

const isShortLever = (axis: AxisFacts): boolean => axis.lengthMm !== null && axis.lengthMm < SHORT_LEVER_MM;

const isShortForError = (axis: AxisFacts): boolean =>
  !isShortLever(axis) &&
  axis.lengthInPlacingErrors !== null &&
  axis.lengthInPlacingErrors < LEAST_LENGTH_IN_PLACING_ERRORS;

/**
 * Below this reach the least that a point is placed to, half a pixel, leaves an angle uncertain by more than 1° (k = 1):
 * two axes of half the reach L each give u = √2 · √2 · 0.5 / (L / 2) = 2 / L rad. After compression with loss it is a
 * whole pixel, and the reach has to be twice as long.
 */
const LEAST_REACH_PIXELS = 115;

const leastReachPixels = ({ lossy }: FilmFacts): number => LEAST_REACH_PIXELS * (lossy === true ? 2 : 1);

const named = (axes: readonly AxisFacts[]): string => `Here: ${axes.map((axis) => axis.name).join(', ')}.`;

const SIDE = { L: 'left', R: 'right' } as const;

const FILM_RULES: readonly CautionRule<FilmFacts>[] = [
  {
    id: 'side-disagrees',
    grade: 'stop',
    title: 'The file names the other hand',
    why: 'The side written in the file is not the side of the case: the film may be of the other hand, of another person, or mirrored.',
    usually: 'Usually the side marker on the film and the request are checked before anything is measured.',
    source: COMMON_PRACTICE,
    applies: (film) =>
      film.expectedSide !== null &&
      (film.statedSide === 'L' || film.statedSide === 'R') &&
      SIDE[film.statedSide] !== film.expectedSide,
    detail: (film) =>
      film.statedSide === 'L' || film.statedSide === 'R'
        ? `The file says ${SIDE[film.statedSide]}, the case ${film.expectedSide}.`
        : null,
  },
  {
    id: 'oblique-view',
    grade: 'warn',
    title: 'Oblique view',
    why: 'Angles read from oblique films of cadaver fractures were higher than the truth by up to 35°, while plain geometry would have them lower: there is no safe conversion, and none is made.',
    usually: 'Usually a true lateral is asked for before the angle is compared with a limit.',
    source: 'Lamraski et al., J Orthop Res 2006;24:37-45',
    // An oblique film that is only looked at is part of the usual three views.
    applies: (film) => film.view === 'oblique' && film.axes.length > 0,
  },
  {
    id: 'view-not-said',
    grade: 'warn',
    title: 'View not said',
    why: 'Limits and normals belong to a view; without it the angle has no name.',
    usually: 'Usually the view is set from the marker, the request or the look of the carpus.',
    source: COMMON_PRACTICE,
    applies: (film) => film.view === null,
  },
  {
    id: 'short-lever',
    grade: 'warn',
    title: 'Short lever',
    why: 'An axis under 6 mm long turns by several degrees when one end moves by half a millimetre.',
    usually: 'Usually the axis is drawn longer, or built from the head where the fragment is short.',
    source: AXIS_SOURCE,
    applies: (film) => film.axes.some(isShortLever),
    detail: (film) => named(film.axes.filter(isShortLever)),
  },
  {
    id: 'short-for-placing-error',
    grade: 'warn',
    title: 'Axis short for the placing error',
    why: 'Placing alone leaves an axis this short uncertain by more than 4° either way (one standard deviation).',
    usually: 'Usually the film is magnified and its points are placed farther apart.',
    source: AXIS_SOURCE,
    applies: (film) => film.axes.some(isShortForError),
    detail: (film) => named(film.axes.filter(isShortForError)),
  },
  {
    id: 'few-pixels',
    grade: 'warn',
    title: 'Few pixels across the bone',
    why: 'An edge is placed to half a pixel at best, and to a whole one after compression with loss; that alone leaves the angle uncertain by more than 1° (one standard deviation).',
    usually: 'Usually the original film is asked for instead of a small picture of it.',
    source: AXIS_SOURCE,
    applies: (film) => film.reachPixels !== null && film.reachPixels < leastReachPixels(film),
    detail: (film) =>
      film.reachPixels === null
        ? null
        : `From the first to the last point placed there are ${Math.round(film.reachPixels)} pixels; ${leastReachPixels(film)} would do.`,
  },
  {
    id: 'slanted-photograph',
    grade: 'warn',
    title: 'Photographed at a slant and not straightened',
    why: 'A slant shortens one direction more than the other, so that angles in the picture are not those on the film.',
    usually:
      'Usually the photograph is straightened by the four corners of the film, or taken again head-on.',
    source:
      'Snyder, Map Projections, USGS Professional Paper 1395, p. 20-21: maximum angular deformation; common practice',
    applies: (film) => film.slant !== null,
    detail: (film) =>
      film.slant === null || film.slant.upToDegrees === null
        ? null
        : `By the corners marked here an angle may be wrong by up to ${film.slant.upToDegrees.toFixed(1)}°.`,
  },
  {
    id: 'pixel-shape-assumed',
    grade: 'warn',
    title: 'Shape of the pixels not stated',
    why: 'Rows and columns are taken to be equally spaced because the file does not say; if they are not, every angle is wrong.',
    usually: 'Usually the original DICOM file is used instead of a picture of it.',
    source: 'DICOM PS3.3, Pixel Aspect Ratio (0028,0034); common practice',
    applies: (film) => film.spacing.kind === 'ratio' && film.spacing.origin === 'assumed-square',
  },
  {
    id: 'spacing-conflict',
    grade: 'warn',
    title: 'Statements of the spacing disagree',
    why: 'Two statements of the spacing, in the file or by an object measured on the film, disagree; lengths may be wrong.',
    usually: 'Usually lengths are checked against an object of known size on the film.',
    source: COMMON_PRACTICE,
    applies: (film) => film.spacing.conflicts.length > 0,
    detail: (film) => film.spacing.conflicts.join(' '),
  },
  {
    id: 'no-spacing',
    grade: 'warn',
    title: 'No spacing: lengths are a share of the bone',
    why: 'Without millimetres shortening cannot be compared with a limit; angles are not touched.',
    usually: 'Usually an object of known size on the film is measured to give the scale.',
    source: COMMON_PRACTICE,
    applies: (film) => film.spacing.kind === 'ratio',
  },
  {
    id: 'mirrored',
    grade: 'warn',
    title: 'Mirrored film',
    why: 'Left and right, and radial and ulnar, are exchanged with respect to the film as stored.',
    usually: 'Usually the side marker is read before the film is believed.',
    source: COMMON_PRACTICE,
    applies: (film) => film.mirrored,
  },
  {
    id: 'burned-in-text',
    grade: 'warn',
    title: 'Text burned into the picture',
    why: 'Names or numbers that are part of the picture stay in it whatever is taken out of the file.',
    usually: 'Usually painted over before the picture is shown or passed on.',
    source: 'DICOM PS3.3, Burned In Annotation (0028,0301); common practice',
    applies: (film) => film.burnedIn === true,
  },
  {
    id: 'spacing-at-detector',
    grade: 'note',
    title: 'Spacing at the detector, not at the bone',
    why: 'The bone lies above the detector, so the film shows it 1–3 % too long, up to 2 mm on a metacarpal; lengths here have the magnification to reckon with taken off, and angles are not touched.',
    usually:
      'Usually lengths are compared with the other hand filmed alike, or scaled by an object beside the bone.',
    source: 'Magnification M = SID/(SID − OID), with the hand 10–30 mm above the detector at 1 m',
    applies: (film) => film.spacing.kind === 'millimetres' && film.spacing.plane === 'detector',
  },
  {
    id: 'spacing-plane-not-known',
    grade: 'note',
    title: 'Not known where the spacing holds',
    why: 'The spacing may be that of the detector, of the scanned film or of the bone; lengths are uncertain by what lies between.',
    usually: 'Usually lengths are checked against an object of known size on the film.',
    source: COMMON_PRACTICE,
    applies: (film) =>
      film.spacing.kind === 'millimetres' &&
      (film.spacing.plane === 'not-known' || film.spacing.plane === 'film'),
  },
  {
    id: 'unequal-spacing',
    grade: 'note',
    title: 'Rows and columns are spaced unequally',
    why: 'The angle is worked out in millimetres; a protractor held to an unscaled picture of this film would read another number.',
    usually: 'Usually nothing more, as long as the spacing in the file is right.',
    source: 'DICOM PS3.3 10.7.1.3',
    applies: (film) =>
      film.spacing.kind === 'millimetres'
        ? film.spacing.rowSpacingMm !== film.spacing.columnSpacingMm
        : film.spacing.rowToColumn !== 1,
  },
  {
    id: 'lossy-compression',
    grade: 'note',
    title: 'Compressed with loss',
    why: 'Fine edges of the cortex may have moved or gone.',
    usually: 'Usually the original is measured where it can be had.',
    source: COMMON_PRACTICE,
    applies: (film) => film.lossy === true,
  },
  {
    id: 'invented-film',
    grade: 'note',
    title: 'Invented film',
    why: 'Drawn by calculation for teaching; it shows no person.',
    usually: 'Usually used for practice only.',
    source: COMMON_PRACTICE,
    applies: (film) => film.invented,
  },
];

const ONE_VIEW: CautionRule<readonly FilmFacts[]> = {
  id: 'one-view-only',
  grade: 'warn',
  title: 'Only one view',
  why: 'A bone that looks straight in one view may be bent in the other, and by plain geometry one view shows at most the true angle.',
  usually: 'Usually PA, oblique and lateral films are taken.',
  source: 'Geometry: tan²θ = tan²a + tan²b for two views at a right angle; common practice',
  applies: (films) => {
    const injured = films.filter((film) => film.hand === 'injured');
    const views = new Set(injured.map((film) => film.view).filter((view) => view !== null));
    return injured.length > 0 && views.size < 2;
  },
};

/** Cautions about the films, each naming the films it concerns. */
export function cautionsByFilm({ films }: Pick<CautionFacts, 'films'>): readonly Caution[] {
  const perFilm = FILM_RULES.flatMap((rule) => {
    const raised = films.flatMap((film) => {
      const caution = raise(rule, film, 'film');
      return caution === null ? [] : [{ caution, film }];
    });
    const first = raised[0];
    return first === undefined ? [] : [{ ...first.caution, films: raised.map(({ film }) => film.name) }];
  });
  const oneView = raise(ONE_VIEW, films, 'film');
  return oneView === null ? perFilm : [...perFilm, oneView];
}
