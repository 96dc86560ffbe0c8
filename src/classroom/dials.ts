import type { FractureSpec, InventedFilmSpec } from '../phantom/spec.ts';

/** Where a dial stands on the sheet of the film maker. */
export type DialGroup = 'bend' | 'break' | 'hand' | 'view' | 'beam' | 'exposure' | 'beside';

export const DIAL_GROUPS: readonly { readonly id: DialGroup; readonly title: string }[] = [
  { id: 'bend', title: 'How far it is out of line' },
  { id: 'break', title: 'The break' },
  { id: 'view', title: 'The view' },
  { id: 'hand', title: 'The hand' },
  { id: 'beam', title: 'The beam' },
  { id: 'exposure', title: 'The exposure' },
  { id: 'beside', title: 'Beside the hand' },
];

interface DialFacts {
  readonly id: string;
  readonly group: DialGroup;
  readonly name: string;
  /** What turning it shows, in one sentence. */
  readonly teaches: string;
}

/** A number that can be turned. */
export interface SliderDial extends DialFacts {
  readonly kind: 'slider';
  readonly from: number;
  readonly to: number;
  readonly step: number;
  readonly unit: '°' | 'mm' | '%' | 'SD' | '';
  readonly get: (spec: InventedFilmSpec) => number;
  readonly set: (spec: InventedFilmSpec, value: number) => InventedFilmSpec;
}

/** One of a few. */
export interface PickDial extends DialFacts {
  readonly kind: 'pick';
  readonly options: readonly { readonly value: string; readonly name: string }[];
  readonly get: (spec: InventedFilmSpec) => string;
  readonly set: (spec: InventedFilmSpec, value: string) => InventedFilmSpec;
}

export type Dial = SliderDial | PickDial;

type Key<Part, Value> = { [K in keyof Part]: Part[K] extends Value ? K : never }[keyof Part];

/** A slider over a number of the first fracture; it changes nothing where nothing is broken. */
const ofBreak = (
  key: Key<FractureSpec, number>,
  facts: Omit<SliderDial, 'kind' | 'get' | 'set' | 'group'> & { readonly group?: DialGroup },
): SliderDial => ({
  kind: 'slider',
  group: 'bend',
  ...facts,
  get: ({ fractures }) => fractures[0]?.[key] ?? 0,
  set: (spec, value) => withFracture(spec, { [key]: value }),
});

const ofPart = <Part extends 'view' | 'exposure' | 'film'>(
  part: Part,
  key: Key<InventedFilmSpec[Part], number>,
  facts: Omit<SliderDial, 'kind' | 'get' | 'set'>,
): SliderDial => ({
  kind: 'slider',
  ...facts,
  get: (spec) => spec[part][key] as number,
  set: (spec, value) => ({ ...spec, [part]: { ...spec[part], [key]: value } }),
});

/** The spec with something else about its first fracture; unchanged where nothing is broken. */
export function withFracture(spec: InventedFilmSpec, patch: Partial<FractureSpec>): InventedFilmSpec {
  const [first, ...others] = spec.fractures;
  return first === undefined ? spec : { ...spec, fractures: [{ ...first, ...patch }, ...others] };
}

const withBeam = (spec: InventedFilmSpec, patch: object): InventedFilmSpec =>
  spec.beam.kind === 'cone' ? { ...spec, beam: { ...spec.beam, ...patch } } : spec;

/** Ball diameters offered, mm. */
const BALL_MM = 25;

const BEND: readonly Dial[] = [
  ofBreak('apexDorsalDegrees', {
    id: 'apexDorsal',
    name: 'Apex dorsal',
    teaches: 'The angle that a lateral view shows. Negative: apex volar.',
    from: -30,
    to: 80,
    step: 1,
    unit: '°',
  }),
  ofBreak('apexRadialDegrees', {
    id: 'apexRadial',
    name: 'Apex radial',
    teaches: 'The angle that a PA view shows. Negative: apex ulnar.',
    from: -35,
    to: 35,
    step: 1,
    unit: '°',
  }),
  ofBreak('axialTurnDegrees', {
    id: 'axialTurn',
    name: 'Rotation',
    teaches: 'Turn of the fragment about its own axis: it hardly shows on any film, and matters most.',
    from: -45,
    to: 45,
    step: 1,
    unit: '°',
  }),
  ofBreak('shorteningMm', {
    id: 'shortening',
    name: 'Shortening',
    teaches: 'How far the fragments have run together.',
    from: 0,
    to: 10,
    step: 0.5,
    unit: 'mm',
  }),
  ofBreak('translationDorsalMm', {
    id: 'translationDorsal',
    name: 'Shift dorsal',
    teaches: 'The distal fragment shifted sideways without tilting. Negative: volar.',
    from: -6,
    to: 6,
    step: 0.5,
    unit: 'mm',
  }),
  ofBreak('translationRadialMm', {
    id: 'translationRadial',
    name: 'Shift radial',
    teaches: 'The same, seen from the front. Negative: ulnar.',
    from: -6,
    to: 6,
    step: 0.5,
    unit: 'mm',
  }),
  {
    kind: 'pick',
    id: 'angleMeaning',
    group: 'bend',
    name: 'The angles above are',
    teaches:
      'A sound bone is bent too: the angle between the axes holds that bend, the turn of the fragment does not.',
    options: [
      { value: 'between-axes', name: 'between the axes' },
      { value: 'fragment-turn', name: 'the fragment’s turn' },
    ],
    get: ({ fractures }) => fractures[0]?.angleMeaning ?? 'between-axes',
    set: (spec, value) => withFracture(spec, { angleMeaning: value as FractureSpec['angleMeaning'] }),
  },
];

/** Where the break lies when the spec leaves it to chance, shown as the middle of that region. */
const USUAL_LEVEL: Readonly<Record<FractureSpec['region'], number>> = {
  head: 84,
  neck: 75,
  shaft: 50,
  base: 17,
};

const BREAK: readonly Dial[] = [
  {
    kind: 'slider',
    id: 'level',
    group: 'break',
    name: 'Level, from the base',
    teaches: 'The nearer the break lies to a joint, the shorter the lever and the less sure the angle.',
    from: 12,
    to: 88,
    step: 1,
    unit: '%',
    get: ({ fractures: [first] }) =>
      first === undefined ? 50 : Math.round(100 * (first.level ?? USUAL_LEVEL[first.region] / 100)),
    set: (spec, value) => withFracture(spec, { level: value / 100 }),
  },
  ofBreak('obliquityDegrees', {
    id: 'obliquity',
    group: 'break',
    name: 'Slope of the break',
    teaches: 'A sloping break slips and shortens; a square one holds.',
    from: -60,
    to: 60,
    step: 1,
    unit: '°',
  }),
  ofBreak('gapMm', {
    id: 'gap',
    group: 'break',
    name: 'Gap',
    teaches: 'A cleft between the fragments.',
    from: 0,
    to: 3,
    step: 0.1,
    unit: 'mm',
  }),
  ofBreak('jagMm', {
    id: 'jag',
    group: 'break',
    name: 'Teeth of the break',
    teaches: 'Coarse teeth hide where the middle of the broken end lies.',
    from: 0,
    to: 2,
    step: 0.1,
    unit: 'mm',
  }),
  {
    kind: 'pick',
    id: 'fragments',
    group: 'break',
    name: 'Fragments',
    teaches: 'With a third fragment the axes end farther from the break.',
    options: [
      { value: 'two', name: 'two' },
      { value: 'butterfly', name: 'a wedge' },
      { value: 'comminuted', name: 'many' },
    ],
    get: ({ fractures }) => fractures[0]?.fragments ?? 'two',
    set: (spec, value) => withFracture(spec, { fragments: value as FractureSpec['fragments'] }),
  },
  {
    kind: 'slider',
    id: 'callus',
    group: 'break',
    name: 'Callus',
    teaches: 'Healing bone blurs the cortex that an axis is drawn by.',
    from: 0,
    to: 100,
    step: 5,
    unit: '%',
    get: ({ fractures }) => Math.round(100 * (fractures[0]?.callus ?? 0)),
    set: (spec, value) => withFracture(spec, { callus: value / 100 }),
  },
];

const VIEW: readonly Dial[] = [
  ofPart('view', 'turnDegrees', {
    id: 'turn',
    group: 'view',
    name: 'Turn of the hand',
    teaches: '0° is PA, 45° oblique, 90° lateral; a little more brings the ring and small fingers forward.',
    from: -110,
    to: 120,
    step: 1,
    unit: '°',
  }),
  ofPart('view', 'leanDegrees', {
    id: 'lean',
    group: 'view',
    name: 'Fingertips raised',
    teaches: 'A hand that does not lie flat is foreshortened: lengths shrink and angles change.',
    from: -30,
    to: 30,
    step: 1,
    unit: '°',
  }),
  ofPart('view', 'inPlaneDegrees', {
    id: 'inPlane',
    group: 'view',
    name: 'Turned on the film',
    teaches: 'Turning the picture changes no angle within it.',
    from: -45,
    to: 45,
    step: 1,
    unit: '°',
  }),
  {
    kind: 'pick',
    id: 'pose',
    group: 'view',
    name: 'Fingers',
    teaches: 'Side by side, fanned out, or half bent as in a splint.',
    options: [
      { value: 'by-view', name: 'by the view' },
      { value: 'flat', name: 'side by side' },
      { value: 'fan', name: 'fanned' },
      { value: 'half-flexed', name: 'half bent' },
    ],
    get: ({ hand }) => hand.pose ?? 'by-view',
    set: (spec, value) => ({
      ...spec,
      hand: { ...spec.hand, pose: value === 'by-view' ? null : (value as 'flat' | 'fan' | 'half-flexed') },
    }),
  },
];

const HAND: readonly Dial[] = [
  {
    kind: 'pick',
    id: 'side',
    group: 'hand',
    name: 'Side',
    teaches: 'Which hand lies on the film.',
    options: [
      { value: 'left', name: 'left' },
      { value: 'right', name: 'right' },
    ],
    get: ({ hand }) => hand.side,
    set: (spec, value) => ({ ...spec, hand: { ...spec.hand, side: value as 'left' | 'right' } }),
  },
  {
    kind: 'pick',
    id: 'sex',
    group: 'hand',
    name: 'Build',
    teaches: 'Mean size and form of the bones.',
    options: [
      { value: 'female', name: 'a woman’s' },
      { value: 'male', name: 'a man’s' },
    ],
    get: ({ hand }) => hand.sex,
    set: (spec, value) => ({ ...spec, hand: { ...spec.hand, sex: value as 'female' | 'male' } }),
  },
  {
    kind: 'slider',
    id: 'size',
    group: 'hand',
    name: 'Size, from the mean',
    teaches: 'The same millimetre of placing error is more on a small bone.',
    from: -2.5,
    to: 2.5,
    step: 0.1,
    unit: 'SD',
    get: ({ hand }) => hand.sizeDeviation ?? 0,
    set: (spec, value) => ({ ...spec, hand: { ...spec.hand, sizeDeviation: value } }),
  },
  {
    kind: 'slider',
    id: 'density',
    group: 'hand',
    name: 'Bone density',
    teaches: 'Thin cortices are hard to follow.',
    from: 40,
    to: 140,
    step: 5,
    unit: '%',
    get: ({ hand }) => Math.round(100 * hand.boneDensity),
    set: (spec, value) => ({ ...spec, hand: { ...spec.hand, boneDensity: value / 100 } }),
  },
];

const BEAM: readonly Dial[] = [
  {
    kind: 'pick',
    id: 'beam',
    group: 'beam',
    name: 'Beam',
    teaches:
      'A real beam spreads from a point and magnifies; a parallel one shows what would be without that.',
    options: [
      { value: 'cone', name: 'from a point' },
      { value: 'parallel', name: 'parallel' },
    ],
    get: ({ beam }) => beam.kind,
    set: (spec, value) => ({
      ...spec,
      beam:
        value === 'parallel'
          ? { kind: 'parallel' }
          : { kind: 'cone', sourceToDetectorMm: 1000, gapToDetectorMm: 5 },
    }),
  },
  {
    kind: 'slider',
    id: 'distance',
    group: 'beam',
    name: 'Tube to detector',
    teaches: 'The nearer the tube, the more the hand is magnified.',
    from: 500,
    to: 1800,
    step: 50,
    unit: 'mm',
    get: ({ beam }) => (beam.kind === 'cone' ? beam.sourceToDetectorMm : 1000),
    set: (spec, value) => withBeam(spec, { sourceToDetectorMm: value }),
  },
  {
    kind: 'slider',
    id: 'lift',
    group: 'beam',
    name: 'Hand above the detector',
    teaches: 'A hand on a cushion or in a cast is magnified more: every length reads too long.',
    from: 0,
    to: 150,
    step: 5,
    unit: 'mm',
    get: ({ beam }) => (beam.kind === 'cone' ? beam.gapToDetectorMm : 0),
    set: (spec, value) => withBeam(spec, { gapToDetectorMm: value }),
  },
  {
    kind: 'pick',
    id: 'statedPlane',
    group: 'beam',
    name: 'The film states its scale',
    teaches: 'At the detector lengths read too long; at the bone the magnification has been taken off.',
    options: [
      { value: 'detector', name: 'at the detector' },
      { value: 'patient', name: 'at the bone' },
    ],
    get: ({ film }) => film.statedPlane,
    set: (spec, value) => ({
      ...spec,
      film: { ...spec.film, statedPlane: value as 'detector' | 'patient' },
    }),
  },
];

const EXPOSURE: readonly Dial[] = [
  {
    kind: 'slider',
    id: 'dose',
    group: 'exposure',
    name: 'Dose',
    teaches: 'Few photons make a grainy film. It looks worse than it measures.',
    from: 1,
    to: 100,
    step: 1,
    unit: '%',
    // 100 % stands for 10 000 photons in a pixel of the open beam.
    get: ({ exposure }) => Math.round(exposure.photonsPerPixel / 100),
    set: (spec, value) => ({ ...spec, exposure: { ...spec.exposure, photonsPerPixel: 100 * value } }),
  },
  ofPart('exposure', 'blurMm', {
    id: 'blur',
    group: 'exposure',
    name: 'Blur',
    teaches: 'A moving hand or a large focal spot softens every edge.',
    from: 0,
    to: 0.8,
    step: 0.02,
    unit: 'mm',
  }),
  {
    kind: 'slider',
    id: 'scatter',
    group: 'exposure',
    name: 'Scatter',
    teaches: 'A grey veil that lowers contrast.',
    from: 0,
    to: 50,
    step: 2,
    unit: '%',
    get: ({ exposure }) => Math.round(100 * exposure.scatterShare),
    set: (spec, value) => ({ ...spec, exposure: { ...spec.exposure, scatterShare: value / 100 } }),
  },
  ofPart('film', 'detail', {
    id: 'detail',
    group: 'exposure',
    name: 'Sharpening by the detector',
    teaches: 'It draws a bright rim along each edge, and with it the place where the edge seems to be.',
    from: 0,
    to: 2,
    step: 0.1,
    unit: '',
  }),
];

const yesNo = (
  facts: DialFacts,
  get: (spec: InventedFilmSpec) => boolean,
  set: (extras: InventedFilmSpec['extras'], on: boolean) => InventedFilmSpec['extras'],
): PickDial => ({
  kind: 'pick',
  ...facts,
  options: [
    { value: 'no', name: 'no' },
    { value: 'yes', name: 'yes' },
  ],
  get: (spec) => (get(spec) ? 'yes' : 'no'),
  set: (spec, value) => ({ ...spec, extras: set(spec.extras, value === 'yes') }),
});

const BESIDE: readonly Dial[] = [
  {
    kind: 'pick',
    id: 'framing',
    group: 'beside',
    name: 'The film shows',
    teaches: 'The whole hand, or the metacarpals alone on a smaller film.',
    options: [
      { value: 'hand', name: 'the whole hand' },
      { value: 'metacarpals', name: 'the metacarpals' },
    ],
    get: ({ film }) => film.framing,
    set: (spec, value) => ({ ...spec, film: { ...spec.film, ...FRAMES[value as 'hand' | 'metacarpals'] } }),
  },
  yesNo(
    {
      id: 'ball',
      group: 'beside',
      name: `A steel ball of ${BALL_MM} mm`,
      teaches: 'An object of known size gives the scale, if it lies as high as the bone.',
    },
    ({ extras }) => extras.knownObject !== null,
    (extras, on) => ({
      ...extras,
      knownObject: on ? { shape: 'ball', diameterMm: BALL_MM, heightMm: 15 } : null,
    }),
  ),
  yesNo(
    {
      id: 'splint',
      group: 'beside',
      name: 'A plaster gutter',
      teaches: 'Plaster lies over the bone and takes contrast away.',
    },
    ({ extras }) => extras.splint,
    (extras, splint) => ({ ...extras, splint }),
  ),
  yesNo(
    { id: 'marker', group: 'beside', name: 'A lead letter', teaches: 'The letter of the side.' },
    ({ extras }) => extras.marker,
    (extras, marker) => ({ ...extras, marker }),
  ),
];

/** A film of the metacarpals alone is a third as large and as quickly drawn. */
export const FRAMES = {
  hand: { framing: 'hand', columns: 1500, rows: 2000 },
  metacarpals: { framing: 'metacarpals', columns: 900, rows: 1100 },
} as const;

/** Everything about an invented film that teaches something when it is turned. */
export const DIALS: readonly Dial[] = [...BEND, ...BREAK, ...VIEW, ...HAND, ...BEAM, ...EXPOSURE, ...BESIDE];

/** A dial by its id. Throws for an id that no dial has, since ids are written by us. */
export function dialOf(id: string): Dial {
  const dial = DIALS.find((candidate) => candidate.id === id);
  if (dial === undefined) throw new Error(`There is no dial ${id}.`);
  return dial;
}

/** Whether a dial has something to turn: dials of the break need one, distances need a beam from a point. */
export function isIdle({ group, id }: Dial, spec: InventedFilmSpec): boolean {
  if (group === 'bend' || group === 'break') return spec.fractures.length === 0;
  return (id === 'distance' || id === 'lift') && spec.beam.kind === 'parallel';
}
