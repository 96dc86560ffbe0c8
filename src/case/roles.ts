import type { MarkRole, MarkShape } from './document.ts';

/** How a mark is put together from points; axes and simpler marks alike. */
export type ShapeConstruction = MarkShape['construction'];

interface RoleFacts {
  /** Plain name; also how undo entries and error messages call the mark. */
  readonly name: string;
  /** What the mark says, in one sentence. */
  readonly meaning: string;
  /** The constructions that suit the role; the first is the one offered. */
  readonly constructions: readonly [ShapeConstruction, ...ShapeConstruction[]];
  /** What the two ends of a `segment` are called, where it matters which is which. */
  readonly ends?: readonly [string, string];
}

/** What each role is called and how it may be built. The tools that place marks read this and know no anatomy. */
export const ROLES: Readonly<Record<MarkRole, RoleFacts>> = {
  'proximal-axis': {
    name: 'proximal axis',
    meaning: 'The long axis of the fragment nearer the wrist, from proximal to distal.',
    constructions: ['canal', 'cortex-pair', 'dorsal-cortex', 'free'],
  },
  'distal-axis': {
    name: 'distal axis',
    meaning: 'The long axis of the fragment nearer the knuckle, from proximal to distal.',
    constructions: ['head', 'canal', 'cortex-pair', 'dorsal-cortex', 'free'],
  },
  'dorsal-side': {
    name: 'dorsal side',
    meaning: 'A point on the side of the film where the back of the hand is.',
    constructions: ['point'],
  },
  'radial-side': {
    name: 'radial side',
    meaning: 'A point on the side of the film where the thumb is.',
    constructions: ['point'],
  },
  'fracture-level': {
    name: 'fracture level',
    meaning:
      'A line across the shaft at the fracture, from one outer cortex of the proximal fragment to the other.',
    constructions: ['segment'],
    ends: ['one cortex', 'other cortex'],
  },
  length: {
    name: 'length of the bone',
    meaning: 'From the middle of the base to the farthest point of the head.',
    constructions: ['segment'],
    ends: ['base', 'head'],
  },
  'reference-length': {
    name: 'length of a neighbour',
    meaning: 'The same length on a whole neighbouring metacarpal, as a yardstick on the same film.',
    constructions: ['segment'],
    ends: ['base', 'head'],
  },
  'head-line': {
    name: 'head line',
    meaning: 'A line through the farthest points of two whole neighbouring heads, commonly middle and ring.',
    constructions: ['segment'],
    ends: ['one neighbouring head', 'other neighbouring head'],
  },
  'head-point': {
    name: 'farthest point of the head',
    meaning: 'The farthest point of the head of the broken bone, to be seen against the head line.',
    constructions: ['point'],
  },
  'fracture-tips': {
    name: 'fracture tips',
    meaning: 'The tips of the two fragments of a spiral or oblique fracture, which lay together before.',
    constructions: ['segment'],
    ends: ['tip of the proximal fragment', 'tip of the distal fragment'],
  },
  'joint-surface': {
    name: 'joint surface',
    meaning: 'A line along the joint surface of the larger fragment, close to the break.',
    constructions: ['segment'],
    ends: ['one point of the surface', 'other point of the surface'],
  },
  'joint-edges': {
    name: 'broken edges of the joint surface',
    meaning: 'The edge of the joint surface on each side of the break.',
    constructions: ['segment'],
    ends: ['edge of the larger fragment', 'edge of the other fragment'],
  },
  'scale-object': {
    name: 'object of known size',
    meaning: 'An object of known size on the film, such as a marker ball or a ruler, which gives the scale.',
    constructions: ['circle', 'segment'],
  },
  'scale-object-2': {
    name: 'second known length',
    meaning:
      'A second object of known size on the same film and at the same height: the scale rests on both, and a wrong one shows.',
    constructions: ['segment', 'circle'],
  },
  'finger-nail': {
    name: 'nail of the finger',
    meaning: 'Along the nail of the injured finger, or of the same finger on the other hand.',
    constructions: ['segment'],
    ends: ['fold of the nail', 'tip'],
  },
  'reference-nail': {
    name: 'nail of the reference finger',
    meaning:
      'Along the nail of a finger that lies straight, commonly the middle; the same one on both hands.',
    constructions: ['segment'],
    ends: ['fold of the nail', 'tip'],
  },
  'neighbour-nail': {
    name: 'width of the neighbouring nail',
    meaning: 'Across the nail of the neighbour that the finger lies over or leans towards.',
    constructions: ['segment'],
    ends: ['edge nearer to the finger', 'far edge'],
  },
  'covering-edge': {
    name: 'foremost edge of the finger',
    meaning: 'The point of the finger that reaches farthest over the neighbouring nail, or towards it.',
    constructions: ['point'],
  },
};

/** What is marked on a photograph of the fist; every other role but the objects of known size is for radiographs. */
export const FIST_ROLES = [
  'finger-nail',
  'reference-nail',
  'neighbour-nail',
  'covering-edge',
] as const satisfies readonly MarkRole[];

/** What gives a film its scale. */
export const SCALE_ROLES = ['scale-object', 'scale-object-2'] as const satisfies readonly MarkRole[];
export type ScaleRole = (typeof SCALE_ROLES)[number];

export const isScaleRole = (role: MarkRole): role is ScaleRole => SCALE_ROLES.some((one) => one === role);

/** What each construction is called and what one clicks, in one sentence. */
export const CONSTRUCTION_FACTS: Readonly<
  Record<ShapeConstruction, { readonly name: string; readonly how: string }>
> = {
  free: { name: 'free line', how: 'Two points along the axis.' },
  'cortex-pair': {
    name: 'outer cortices',
    how: 'At two or more levels, a point on each outer cortex; the axis runs through the mid-points.',
  },
  canal: {
    name: 'canal',
    how: 'At two or more levels, a point on each inner cortex; the axis runs through the mid-points.',
  },
  'dorsal-cortex': { name: 'dorsal cortex', how: 'Two or more points along the dorsal cortex.' },
  head: {
    name: 'head circle',
    how: 'Three or more points on the rim of the head, then the middle of the broken end.',
  },
  circle: { name: 'circle', how: 'Three or more points on the rim of a round object.' },
  point: { name: 'point', how: 'One point.' },
  segment: { name: 'line between two points', how: 'Two points.' },
};

export const roleName = (role: MarkRole): string => ROLES[role].name;

export const suits = (role: MarkRole, construction: ShapeConstruction): boolean =>
  ROLES[role].constructions.includes(construction);
