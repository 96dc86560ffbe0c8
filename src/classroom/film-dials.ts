import type { InventedFilmSpec } from '../phantom/spec.ts';
import type { Dial, DialFacts, Key, PickDial, SliderDial } from './dial.ts';

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

const withBeam = (spec: InventedFilmSpec, patch: object): InventedFilmSpec =>
  spec.beam.kind === 'cone' ? { ...spec, beam: { ...spec.beam, ...patch } } : spec;

/** Ball diameters offered, mm. */
const BALL_MM = 25;

export const VIEW: readonly Dial[] = [
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

export const HAND: readonly Dial[] = [
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

export const BEAM: readonly Dial[] = [
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

export const EXPOSURE: readonly Dial[] = [
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

export const BESIDE: readonly Dial[] = [
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
