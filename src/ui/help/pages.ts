import type { Quantity } from '../../case/reading.ts';
import type { ShapeConstruction } from '../../case/roles.ts';
import type { Construction } from '../../tolerance/anatomy.ts';

/** One definition as the panel and `docs/measurements/` show it. */
export interface HelpPage {
  readonly id: HelpId;
  /** Name of its page in docs/measurements/, without ending; the page's section "In short" is this text. */
  readonly doc: string;
  readonly kind: 'axis' | 'reading' | 'beside';
  readonly title: string;
  /** What it is and how it is done, as one paragraph. */
  readonly about: string;
  /** The formula in words, as one sentence. */
  readonly formula: string;
  /** What has been published about how well it repeats or agrees, with whose word that is. */
  readonly reliability: { readonly text: string; readonly source: string };
  /** What the number and its interval leave out, as one sentence. */
  readonly leavesOut: string;
}

export type HelpId =
  | 'free'
  | 'cortex-pair'
  | 'canal'
  | 'dorsal-cortex'
  | 'head'
  | 'angulation'
  | 'deformity'
  | 'length'
  | 'shortening'
  | 'translation'
  | 'joint-surface'
  | 'spatial-angle'
  | 'fist-photograph'
  | 'uncertainty'
  | 'scale'
  | 'agreement';

const SLETTEN = 'Sletten et al., J Hand Surg Eur, doi 10.1177/1753193412461582';
const LAMRASKI = 'Lamraski et al., J Orthop Res 2006;24:37–45';
const BHANDARI = 'Bhandari et al., Plast Aesthet Res 2017;4:174–177';

/** Axes first, then readings, then what stands beside them. */
export const HELP_PAGES: readonly HelpPage[] = [
  {
    id: 'canal',
    doc: 'axis-canal',
    kind: 'axis',
    title: 'Axis by the canal',
    about:
      'At two or more levels of the fragment, a point on each inner cortex. The axis is the straight line that runs closest to the mid-points of the canal.',
    formula:
      'Half-way between the two inner cortices at each level, then the best straight line through these.',
    reliability: { text: 'Canal axes on a true lateral film: ICC 0.53 to 0.81.', source: SLETTEN },
    leavesOut: 'The canal widens towards base and head, and not evenly on both sides.',
  },
  {
    id: 'cortex-pair',
    doc: 'axis-cortex-pair',
    kind: 'axis',
    title: 'Axis by the outer cortices',
    about:
      'At two or more levels of the fragment, a point on each outer cortex. The axis is the straight line that runs closest to the mid-points.',
    formula:
      'Half-way between the two outer cortices at each level, then the best straight line through these.',
    reliability: {
      text: 'Not found by itself; all methods together in 30 cadaver fractures: ICC 0.76 to 1.00.',
      source: LAMRASKI,
    },
    leavesOut: 'A flared base or neck within the levels tilts the line, and the bow of the bone stays in it.',
  },
  {
    id: 'dorsal-cortex',
    doc: 'axis-dorsal-cortex',
    kind: 'axis',
    title: 'Axis by the dorsal cortex',
    about:
      'Two or more points along the dorsal cortex of the fragment. The axis is the straight line that runs closest to them.',
    formula: 'The best straight line through the points themselves.',
    reliability: {
      text: 'Normal angle of whole bones on a true lateral, mean (SD): index 13 (4.73), middle 10 (5.28), ring 11 (4.45), small 12 (5.11) degrees.',
      source: BHANDARI,
    },
    leavesOut: 'The dorsal cortex is bowed, so the angle depends on which stretch of it is taken.',
  },
  {
    id: 'head',
    doc: 'axis-head',
    kind: 'axis',
    title: 'Axis by the head circle',
    about:
      'For the short distal fragment of a neck fracture: three or more points on the rim of the head give a circle, and the axis runs from the middle of the broken end to its centre.',
    formula:
      'The circle with the least squared distances from the rim points, then the line from the broken end to its centre.',
    reliability: {
      text: 'Shaft axis against the line from the head’s centre to the fracture, 30 cadaver fractures: validity ICC 0.70 to 0.79.',
      source: LAMRASKI,
    },
    leavesOut:
      'The head is not a perfect ball, and the broken end of an impacted fracture hides behind the shaft.',
  },
  {
    id: 'free',
    doc: 'axis-free',
    kind: 'axis',
    title: 'Axis by a free line',
    about:
      'A straight line from one placed point to the other; you decide what the two points mean. Prefer a named construction where a limit or a normal is compared with.',
    formula: 'The direction from the first point to the second.',
    reliability: {
      text: 'None for free points. A goniometer on carpal films, a neighbouring task: SD 5.2°.',
      source: 'Garcia-Elias et al., J Hand Surg Am 1989;14A:1017–1021',
    },
    leavesOut: 'Everything about where the axis of a fragment lies.',
  },
  {
    id: 'angulation',
    doc: 'angulation',
    kind: 'reading',
    title: 'Angulation, measured',
    about:
      'The angle between the proximal and the distal axis on this film, named by its view. From the side it is apex dorsal where the distal fragment tilts towards the palm; in a PA view it is the coronal angle, apex radial or apex ulnar. The sign needs the dorsal (or radial) side to be tapped once.',
    formula:
      'The turn from the direction of the proximal axis to that of the distal one, both run from the wrist towards the knuckle.',
    reliability: {
      text: 'Canal axes on a true lateral: ICC 0.53 to 0.81. Measured obliques read higher than the truth, by up to 35° in cadavers.',
      source: `${SLETTEN}; ${LAMRASKI}`,
    },
    leavesOut: 'Turning of the hand out of the view; an oblique reading is flagged and never converted.',
  },
  {
    id: 'deformity',
    doc: 'deformity',
    kind: 'reading',
    title: 'Normal and deformity',
    about:
      'A whole metacarpal is bent already. The deformity is the measured angle less this normal: the same angle on the other hand where it was measured, else a published normal for these axes with its spread, else zero, and the line says which.',
    formula: 'Measured less normal; the two uncertainties are added as squares.',
    reliability: {
      text: 'Normal of whole bones: capital axis ring 14°, small 12°; dorsal cortex 10 to 13° with an SD of about 5° between people, which alone makes ± 10°.',
      source: `Rivlin et al., Hand 2015;10:756–761; ${BHANDARI}`,
    },
    leavesOut: 'Two sound hands differ, and a published normal comes from other people, measured by others.',
  },
  {
    id: 'length',
    doc: 'length',
    kind: 'reading',
    title: 'Length of the bone',
    about:
      'The straight distance from the middle of the base to the farthest point of the head, on a PA film. Without a scale there are no millimetres, and distances are shown as a share of this length.',
    formula: 'Distance on the film, divided by how much larger than life the film shows the bone.',
    reliability: {
      text: 'Mean lengths from joint to joint: 46.2, 68.1, 64.6, 58.0, 53.7 mm, thumb to small.',
      source: 'Buryanov and Kotiuk, Int J Morphol 2010;28:755–758',
    },
    leavesOut: 'A bone tilted out of the film looks shorter: by 1.5 % at 10°, by 6 % at 20°.',
  },
  {
    id: 'shortening',
    doc: 'shortening',
    kind: 'reading',
    title: 'Shortening',
    about:
      'How much shorter the bone is than it was. There are four ways and they do not agree, so the way is part of the reading: the length of the other hand; the ratio to a whole neighbour; the distance below the line through two other heads; the overlap of two tips that lay together.',
    formula:
      'Length (or distance below the head line) as it was, less as it is; or how far the tips reach past one another along the bone.',
    reliability: {
      text: 'Head line through middle and ring: ICC 0.81 to 0.96. Lengths differ between two sound hands; ratios within a hand did not.',
      source: `${SLETTEN}; Foley et al., SAGE Open Med 2021;9`,
    },
    leavesOut: 'Two sound hands differ, and a tilted bone is shorter on the film without having lost length.',
  },
  {
    id: 'translation',
    doc: 'translation',
    kind: 'reading',
    title: 'Translation',
    about:
      'How far the distal fragment stands aside of the proximal one at the fracture, across the proximal axis, in millimetres and as a share of the width of the shaft.',
    formula: 'Distance of the distal axis from the proximal one at the level of the fracture.',
    reliability: { text: 'None found for metacarpals.', source: 'no publication found' },
    leavesOut: 'An offset along the line of sight is not seen in this view.',
  },
  {
    id: 'joint-surface',
    doc: 'joint-surface',
    kind: 'reading',
    title: 'Joint step and gap',
    about:
      'The edges of a broken joint surface: how far apart they stand across the surface (step) and along it (gap). The surface is a line on the larger fragment close to the break.',
    formula: 'The distance from edge to edge, square to the surface for the step and along it for the gap.',
    reliability: {
      text: 'None found for metacarpals. Two clicks at 0.5 mm each do not tell a step of 1 mm from none.',
      source: 'by calculation',
    },
    leavesOut: 'The curve of the surface; a step seen in one view may be hidden in another.',
  },
  {
    id: 'spatial-angle',
    doc: 'spatial-angle',
    kind: 'reading',
    title: 'Angle in space',
    about:
      'The angle between the fragments in space and the plane it lies in, from the signed angles on two films of one day between which the hand was turned by a stated amount: a quarter turn from PA to lateral, and what you state for an oblique.',
    formula:
      'At a quarter turn the squared tangents of the two angles add up to the squared tangent of the angle in space.',
    reliability: {
      text: 'Worked example in print: 19° and 14°, drawn 24°, exactly 23.03°. Below 30° between the views it is refused.',
      source: 'PMC4799231, figure 5',
    },
    leavesOut:
      'It takes the proximal fragment to lie flat to the film in both views, which nobody has measured.',
  },
  {
    id: 'fist-photograph',
    doc: 'fist-photograph',
    kind: 'reading',
    title: 'Rotation, and a photograph of the fist',
    about:
      'Rotation cannot be read off a radiograph. On a photograph of the half-closed fist two points along the nail of the finger and two along that of a reference finger give its direction, which is compared with the other hand; and the overlap is given as a share of the neighbouring nail. Both support the look at the hand, settle nothing, and are never compared with a limit.',
    formula:
      'Direction of the nail against a reference finger here, less the same on the mirrored other hand; covered width of the neighbouring nail over its whole width.',
    reliability: {
      text: 'Nine people in ten overlap somewhat, none by more than half a nail; 73 % unequally on the two hands. Small finger: 25 (SD 20) %, side difference 16 (SD 13) %.',
      source:
        'Variation in digital rotation and alignment in normal subjects (240 fingers); Lahey et al., Orthopedics 2011;34(7)',
    },
    leavesOut: 'How far the fist is closed, which matters most.',
  },
  {
    id: 'uncertainty',
    doc: 'uncertainty',
    kind: 'beside',
    title: 'The interval',
    about:
      'Each reading stands with the half-width of its 95 % interval. It follows from how exactly points are placed (0.5 mm until your own repeats say better), the scale, the normal and the turn of the hand; open a reading to see each source and its share.',
    formula:
      'Each source’s effect on the reading, added as squares, times the factor of the t distribution for 95 %.',
    reliability: {
      text: 'Checked by simulation of every reading against the stated 95 %; an axis of 5 placing errors is refused, below 20 it is flagged.',
      source: 'JCGM 100:2008 and JCGM 101:2008',
    },
    leavesOut: 'Whether the line was put where its definition says.',
  },
  {
    id: 'scale',
    doc: 'scale',
    kind: 'beside',
    title: 'Scale',
    about:
      'Millimetres per pixel: from the file, with the plane it holds in, or from an object of known size on the film. Angles need no scale, only that rows and columns are spaced as stated.',
    formula: 'Known size divided by the size in pixels.',
    reliability: {
      text: 'At the detector a hand is shown 1 to 3 % larger than it is; at 0.5 mm a ball of 24 mm gives the scale to 2.1 %.',
      source: 'by calculation, from teaching pages on magnification',
    },
    leavesOut: 'The scale holds at the height of the object, not above or below it.',
  },
  {
    id: 'agreement',
    doc: 'agreement',
    kind: 'beside',
    title: 'Repeats and agreement',
    about:
      'How far repeats by one person scatter (within-subject SD), how far two people differ (limits of agreement), and how much of the spread lies between patients (ICC). A change between two readings counts only beyond the smallest detectable change.',
    formula:
      'Repeatability is 2.77 within-subject SDs; the smallest detectable change 1.96 times the root of both squared uncertainties.',
    reliability: {
      text: 'The table in print: ICC 0.17, 0.29 and 0.71 for the three forms of a single reading.',
      source: 'Shrout and Fleiss, Psychol Bull 1979;86:420–428',
    },
    leavesOut: 'Agreement of two observers says nothing of either being right.',
  },
];

/** The page that defines each reading. */
export const PAGE_OF_QUANTITY: Readonly<Record<Quantity, HelpId>> = {
  angulation: 'angulation',
  normal: 'deformity',
  deformity: 'deformity',
  length: 'length',
  'shortening-by-other-hand': 'shortening',
  'shortening-by-neighbours': 'shortening',
  'shortening-by-head-line': 'shortening',
  'shortening-by-overlap': 'shortening',
  'head-line-distance': 'shortening',
  translation: 'translation',
  'translation-of-width': 'translation',
  'joint-step': 'joint-surface',
  'joint-gap': 'joint-surface',
  'spatial-angle': 'spatial-angle',
  'spatial-direction': 'spatial-angle',
  'nail-direction': 'fist-photograph',
  'nail-direction-difference': 'fist-photograph',
  'nail-overlap': 'fist-photograph',
};

const AXIS_PAGES: readonly ShapeConstruction[] = [
  'free',
  'cortex-pair',
  'canal',
  'dorsal-cortex',
  'head',
] satisfies readonly Construction[];

/** The page that defines an axis of this construction; null for simpler marks. */
export const pageOfConstruction = (construction: ShapeConstruction): HelpId | null =>
  AXIS_PAGES.includes(construction) ? (construction as HelpId) : null;

export const helpPage = (id: HelpId): HelpPage => {
  const page = HELP_PAGES.find((candidate) => candidate.id === id);
  if (page === undefined) throw new Error(`there is no page ${id}`);
  return page;
};

/** The pages that hold every word of a query, those with it in the title first; all of them for an empty one. */
export function searchPages(query: string): readonly HelpPage[] {
  const words = plain(query).split(/\s+/).filter(Boolean);
  const holds = (text: string) => words.every((word) => plain(text).includes(word));
  const found = HELP_PAGES.filter(({ title, about, formula, reliability, leavesOut }) =>
    holds([title, about, formula, reliability.text, reliability.source, leavesOut].join(' ')),
  );
  return found.toSorted((one, other) => Number(holds(other.title)) - Number(holds(one.title)));
}

const plain = (text: string): string => text.toLowerCase().normalize('NFKD').replace(/\p{M}/gu, '');

/** The section "In short" of a page in docs/measurements/, word for word. */
export const inShort = ({ about, formula, reliability, leavesOut }: HelpPage): string =>
  [
    about,
    `In words: ${formula}`,
    `Published: ${reliability.text} (${reliability.source})`,
    `Left out: ${leavesOut}`,
  ].join('\n\n');
