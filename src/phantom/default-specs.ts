import { type InventedFilmRequest, type InventedFilmSpec, parseSpec } from './spec.ts';

const SMALL_NECK: NonNullable<InventedFilmRequest['fractures']> = [
  {
    ray: 'small',
    region: 'neck',
    level: 0.74,
    apexDorsalDegrees: 45,
    apexRadialDegrees: 4,
    shorteningMm: 1,
    gapMm: 0.3,
    jagMm: 0.8,
  },
];
const RING_SHAFT: NonNullable<InventedFilmRequest['fractures']> = [
  {
    ray: 'ring',
    region: 'shaft',
    level: 0.5,
    apexDorsalDegrees: 28,
    apexRadialDegrees: 4,
    shorteningMm: 2,
    translationDorsalMm: 1,
    obliquityDegrees: 35,
  },
];

const HAND = { sizeDeviation: -0.3 } as const;
const OTHER_HAND = { ...HAND, side: 'left' } as const;

/** Ready-made descriptions. The lateral is a little supinated, which brings the ring and small finger forward. */
const REQUESTS = {
  'small-neck-lateral': { hand: HAND, fractures: SMALL_NECK, view: { turnDegrees: 97 } },
  'small-neck-oblique': { hand: HAND, fractures: SMALL_NECK, view: { turnDegrees: 45 } },
  'small-neck-pa': { hand: HAND, fractures: SMALL_NECK, view: { turnDegrees: 0 } },
  'ring-shaft-pa': { hand: HAND, fractures: RING_SHAFT, view: { turnDegrees: 3 } },
  'ring-shaft-oblique': { hand: HAND, fractures: RING_SHAFT, view: { turnDegrees: 45 } },
  'ring-shaft-lateral': { hand: HAND, fractures: RING_SHAFT, view: { turnDegrees: 98 } },
  'other-hand-lateral': { hand: OTHER_HAND, view: { turnDegrees: 97 } },
  'other-hand-pa': { hand: OTHER_HAND, view: { turnDegrees: 0 } },
} as const satisfies Readonly<Record<string, InventedFilmRequest>>;

export type DefaultSpecName = keyof typeof REQUESTS;

export const DEFAULT_SPEC_NAMES = Object.keys(REQUESTS) as readonly DefaultSpecName[];

/** A ready-made spec by name, all defaults filled in. */
export function defaultSpec(name: DefaultSpecName): InventedFilmSpec {
  const parsed = parseSpec(REQUESTS[name]);
  if (!parsed.ok) throw new Error(`The ready-made spec ${name} is not valid.`);
  return parsed.value;
}
