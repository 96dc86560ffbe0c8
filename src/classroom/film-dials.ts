import type { InventedFilmSpec } from '../phantom/spec.ts';
import type { Dial, DialFacts, PickDial } from './dial.ts';
import { ofPart } from './part-dial.ts';

const withBeam = (spec: InventedFilmSpec, patch: object): InventedFilmSpec =>
  spec.beam.kind === 'cone' ? { ...spec, beam: { ...spec.beam, ...patch } } : spec;

/** Diameter of the ball offered, mm. */
const BALL_MM = 25;

const GRID = { pitchMm: 20, diameterMm: 1.5 } as const;

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
    teaches:
      'A hand on a cushion or in a cast is magnified more, and only the usual 1–3 % are taken off lengths.',
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
    teaches:
      'At the detector the film shows the bone too long, and the usual 1–3 % are taken off lengths; at the bone that has been done.',
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
  ofPart('exposure', 'energyKev', {
    id: 'energy',
    group: 'exposure',
    name: 'Energy of the beam',
    teaches:
      'Harder radiation passes bone and soft tissue alike: contrast goes. 34 keV stands for a usual hand exposure.',
    from: 24,
    to: 70,
    step: 1,
    unit: 'keV',
  }),
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
  {
    kind: 'slider',
    id: 'ballHeight',
    group: 'beside',
    name: 'Ball above the detector',
    teaches:
      'A ball that lies lower than the bone gives a scale that makes the bone too long, and the other way round.',
    from: 0,
    to: 150,
    step: 5,
    unit: 'mm',
    get: ({ extras }) => extras.knownObject?.heightMm ?? 15,
    set: (spec, heightMm) =>
      spec.extras.knownObject === null
        ? spec
        : { ...spec, extras: { ...spec.extras, knownObject: { ...spec.extras.knownObject, heightMm } } },
  },
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
    {
      id: 'cast',
      group: 'beside',
      name: 'A plaster cast',
      teaches: 'Plaster all round: every bone of the palm shows through two layers of it.',
    },
    ({ extras }) => extras.cast === true,
    (extras, cast) => ({ ...extras, cast }),
  ),
  yesNo(
    { id: 'marker', group: 'beside', name: 'A lead letter', teaches: 'The letter of the side.' },
    ({ extras }) => extras.marker,
    (extras, marker) => ({ ...extras, marker }),
  ),
  yesNo(
    {
      id: 'markerGrid',
      group: 'beside',
      name: `Lead discs every ${GRID.pitchMm} mm`,
      teaches: 'They lie on the detector: their spacing is its own, and the bone above them is drawn larger.',
    },
    ({ extras }) => (extras.markerGrid ?? null) !== null,
    (extras, on) => ({ ...extras, markerGrid: on ? GRID : null }),
  ),
];

/** A film of the metacarpals alone is a third as large and as quickly drawn. */
export const FRAMES = {
  hand: { framing: 'hand', columns: 1500, rows: 2000 },
  metacarpals: { framing: 'metacarpals', columns: 900, rows: 1100 },
} as const;
