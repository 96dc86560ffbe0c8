import { z } from 'zod';
import { failure, type Result, success } from '../geometry/result.ts';
import { ENERGY_RANGE_KEV } from './attenuation.ts';

// The content policy of the built app forbids code from strings.
z.config({ jitless: true });

export const PHANTOM_RAYS = ['thumb', 'index', 'middle', 'ring', 'small'] as const;
export type PhantomRay = (typeof PHANTOM_RAYS)[number];

const angle = (limit: number) => z.number().min(-limit).max(limit);

const handSchema = z.strictObject({
  side: z.enum(['left', 'right']).default('right'),
  sex: z.enum(['female', 'male']).default('male'),
  /** Standard deviations of the hand's overall size from the mean of its sex; null: drawn. */
  sizeDeviation: angle(3).nullable().default(null),
  /** Cortex thickness and trabecular density as a share of a healthy adult's. */
  boneDensity: z.number().min(0.4).max(1.4).default(1),
  /**
   * A young hand's growth plates, open: near the heads of the metacarpals of the fingers, near the bases of the
   * thumb's and of all phalanges, and in radius and ulna. Sizes and forms of the bones stay an adult's, less
   * `sizeDeviation`. Left out: closed; no value is filled in, so that older descriptions stay as they are.
   */
  openGrowthPlates: z.boolean().optional(),
  /** flat: fingers side by side; fan: fingers flexed by steps; half-flexed: as held in a splint. Null: by view. */
  pose: z.enum(['flat', 'fan', 'half-flexed']).nullable().default(null),
});

const fractureSchema = z.strictObject({
  ray: z.enum(PHANTOM_RAYS),
  region: z.enum(['head', 'neck', 'shaft', 'base']),
  /** Middle of the break, from the base as a share of the bone's length; null: drawn within the region. */
  level: z.number().min(0.1).max(0.9).nullable().default(null),
  /**
   * between-axes: the angles below are those between the axes of the two fragments, the bone's own bow and
   * neck tilt included, as read on a film. fragment-turn: they are the turn of the distal fragment from
   * where it was before the injury.
   */
  angleMeaning: z.enum(['between-axes', 'fragment-turn']).default('between-axes'),
  /** Positive: apex dorsal, the distal fragment tilts volar. */
  apexDorsalDegrees: angle(85).default(0),
  /** Positive: apex radial, the distal fragment tilts ulnar. */
  apexRadialDegrees: angle(60).default(0),
  /** Turn of the distal fragment about its own axis; positive: its dorsal side turns towards the ulnar side. */
  axialTurnDegrees: angle(60).default(0),
  shorteningMm: z.number().min(0).max(15).default(0),
  translationDorsalMm: angle(12).default(0),
  translationRadialMm: angle(12).default(0),
  /** Slope of the break's surface in the dorsal–volar plane; positive: dorsal side more proximal. */
  obliquityDegrees: angle(65).default(0),
  /** Half the height of the jagged teeth. */
  jagMm: z.number().min(0).max(2).default(0.7),
  /** Width of the cleft before the distal fragment is turned. */
  gapMm: z.number().min(0).max(4).default(0.3),
  /** Where the turn has its hinge: -1 the volar cortex, +1 the dorsal cortex. */
  hinge: z.number().min(-1).max(1).default(-0.3),
  fragments: z.enum(['two', 'butterfly', 'comminuted']).default('two'),
  /** Healing bone round the break: 0 none, 1 much. */
  callus: z.number().min(0).max(1).default(0),
});

const viewSchema = z.strictObject({
  /** Turn of the hand about its long axis: 0 PA, 45 oblique, 90 lateral with the radial side up, 110 supinated lateral. */
  turnDegrees: z.number().min(-180).max(180).default(0),
  /** Lean of the hand towards the tube, fingertips up. */
  leanDegrees: angle(45).default(0),
  /** Turn of the hand on the film, clockwise as displayed. */
  inPlaneDegrees: z.number().min(-180).max(180).default(0),
});

const beamSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('cone'),
    sourceToDetectorMm: z.number().min(500).max(3000).default(1000),
    /** From the lowest point of the hand to the detector. */
    gapToDetectorMm: z.number().min(0).max(200).default(5),
  }),
  z.strictObject({ kind: z.literal('parallel') }),
]);

const exposureSchema = z.strictObject({
  /** One energy stands for the whole spectrum; a 50–55 kV hand exposure acts like about 33 keV. */
  energyKev: z.number().min(20).max(ENERGY_RANGE_KEV.to).default(34),
  /** Photons counted per pixel in the open beam; the noise follows from it. */
  photonsPerPixel: z.number().min(50).max(1e6).default(6000),
  /** Scattered share of all that reaches the detector behind the palm. */
  scatterShare: z.number().min(0).max(0.6).default(0.12),
  /** One standard deviation of focal spot and detector together, at the detector. */
  blurMm: z.number().min(0).max(1).default(0.11),
});

const filmSchema = z.strictObject({
  columns: z.number().int().min(32).max(6000).default(1500),
  rows: z.number().int().min(32).max(6000).default(2000),
  /** Pitch of the detector, the same both ways. */
  pitchMm: z.number().min(0.03).max(2).default(0.125),
  /** detector: the stated spacing is the pitch; patient: it is divided by the magnification at the injury. */
  statedPlane: z.enum(['detector', 'patient']).default('detector'),
  bitsStored: z.union([z.literal(12), z.literal(13), z.literal(14)]).default(12),
  /** hand: the whole hand in the middle; metacarpals: the five metacarpals in the middle. */
  framing: z.enum(['hand', 'metacarpals']).default('hand'),
  /** Strengthening of fine detail by the detector's own processing: 0 none. */
  detail: z.number().min(0).max(2).default(0.7),
  /** Flattening of broad differences in density by the same: 0 none, 1 all. */
  evenness: z.number().min(0).max(0.9).default(0.45),
});

const specSchema = z.strictObject({
  hand: handSchema.prefault({}),
  fractures: z.array(fractureSchema).max(5).default([]),
  view: viewSchema.prefault({}),
  beam: beamSchema.prefault({ kind: 'cone' }),
  exposure: exposureSchema.prefault({}),
  film: filmSchema.prefault({}),
  extras: z
    .strictObject({
      /** Lead letter of the side, beside the hand. */
      marker: z.boolean().default(true),
      /** A steel ball or disc of known diameter lying beside the hand. */
      knownObject: z
        .strictObject({
          shape: z.enum(['ball', 'disc']).default('ball'),
          diameterMm: z.number().min(3).max(60),
          /** From its middle to the detector. */
          heightMm: z.number().min(0).max(200).default(15),
        })
        .nullable()
        .default(null),
      /** A plaster gutter on the ulnar side of the forearm and palm. */
      splint: z.boolean().default(false),
      /** A plaster cast all round forearm and palm, up to the knuckles. Left out: none. */
      cast: z.boolean().optional(),
      /**
       * Lead discs lying on the detector in a square grid over the whole film, one under the tube: for checks of
       * spacing and distortion. Left out: none, as null.
       */
      markerGrid: z
        .strictObject({
          /** From the middle of one disc to the next, along rows and columns. */
          pitchMm: z.number().min(2).max(100),
          diameterMm: z.number().min(0.3).max(10),
        })
        .refine(({ pitchMm, diameterMm }) => diameterMm <= 0.8 * pitchMm, {
          path: ['diameterMm'],
          message: 'The discs run into one another; make them at most 0.8 of the pitch',
        })
        .nullable()
        .optional(),
      /** Draw these bones and nothing else: for checks. Null: the whole hand. */
      onlyRay: z.enum(PHANTOM_RAYS).nullable().default(null),
    })
    .prefault({}),
});

/** What a film is to show, as plain JSON. Whatever is left out takes the default stated above. */
export type InventedFilmSpec = z.output<typeof specSchema>;
export type FractureSpec = InventedFilmSpec['fractures'][number];
/** The same before defaults are filled in. */
export type InventedFilmRequest = z.input<typeof specSchema>;

/** Why a spec cannot be used: each problem names the field and what was wanted. */
export interface SpecError {
  readonly kind: 'bad-spec';
  readonly problems: readonly { readonly field: string; readonly message: string }[];
}

/**
 * Checks a request and fills in the defaults. Unknown fields are refused, so that a misspelt one is not
 * silently ignored. A ray can be broken once.
 */
export function parseSpec(request: unknown): Result<InventedFilmSpec, SpecError> {
  const parsed = specSchema.safeParse(request);
  if (!parsed.success) {
    const problems = parsed.error.issues.map((issue) => ({
      field: issue.path.join('.') || 'the whole spec',
      message: issue.message,
    }));
    return failure({ kind: 'bad-spec', problems });
  }
  const rays = parsed.data.fractures.map((fracture) => fracture.ray);
  const repeated = rays.find((ray, index) => rays.indexOf(ray) !== index);
  if (repeated !== undefined) {
    const message = `The ${repeated} ray is broken twice; give each ray one fracture`;
    return failure({ kind: 'bad-spec', problems: [{ field: 'fractures', message }] });
  }
  return success(parsed.data);
}

/** Says a spec error to a person. */
export const specErrorSentence = (error: SpecError): string =>
  `This description of an invented film cannot be used. ${specProblems(error)}. Correct it and try again.`;

/** The fields that do not hold, each with what is wrong; for a sentence of one's own. */
export const specProblems = (error: SpecError): string =>
  error.problems.map(({ field, message }) => `${field}: ${message}`).join('; ');
