import type { Ray, Region } from './anatomy.ts';

/** Something that is usually expected at a time after the injury; never a plan for one patient. */
export interface Milestone {
  readonly id: string;
  /** What is expected, with the condition under which it is. */
  readonly name: string;
  /** What the days are counted from. */
  readonly since: 'injury' | 'reduction';
  /** Whole days, `fromDay` ≤ `toDay`. */
  readonly fromDay: number;
  readonly toDay: number;
  /** Publication with what it says, or "common practice, no source". */
  readonly source: string;
}

interface Suggestion extends Milestone {
  /** Null: any. */
  readonly rays: readonly Ray[] | null;
  readonly regions: readonly Region[] | null;
}

const FINGERS: readonly Ray[] = ['index', 'middle', 'ring', 'small'];
const WEEK = 7;

const SHAFT_CARD = 'Family practice residency reference card, Metacarpal shaft fracture';
const BASE_CARD = 'Family practice residency reference card, Metacarpal base fracture';
const EATON = 'eatonhand.com, page thr035, after plate fixation of a metacarpal';

/** In the order of their first days, then of their last; each speaks for its own text only. */
const SUGGESTIONS: readonly Suggestion[] = [
  {
    id: 'plate-motion',
    name: 'First motion, after a plate',
    since: 'reduction',
    fromDay: 0,
    toDay: 2,
    source: `${EATON}: motion at once`,
    rays: FINGERS,
    regions: ['shaft'],
  },
  {
    id: 'specialist-review',
    name: 'Seen by a specialist',
    since: 'injury',
    fromDay: 0,
    toDay: WEEK,
    source: 'The Atlas of Emergency Medicine, 5th edition, 2021: early review within 7 days',
    rays: null,
    regions: null,
  },
  {
    id: 'shaft-film',
    name: 'Film again',
    since: 'injury',
    fromDay: 5,
    toDay: 7,
    source: `${SHAFT_CARD}: review and film at 5–7 days`,
    rays: FINGERS,
    regions: ['shaft'],
  },
  {
    id: 'base-films',
    name: 'Film every week',
    since: 'injury',
    fromDay: WEEK,
    toDay: 3 * WEEK,
    source: `${BASE_CARD}: weekly film for three weeks`,
    rays: null,
    regions: ['base'],
  },
  {
    id: 'sport-after-surgery',
    name: 'Back to sport reported, after surgery',
    since: 'reduction',
    fromDay: 13,
    toDay: 24,
    source:
      'Phelps 2025, Arthrosc Sports Med Rehabil 7:101107: 1.8–3.4 weeks in 3 studies of 91 athletes; no objective criteria exist',
    rays: null,
    regions: ['neck', 'shaft'],
  },
  {
    id: 'head-motion',
    name: 'Splint off, first motion (undisplaced)',
    since: 'injury',
    fromDay: 2 * WEEK,
    toDay: 3 * WEEK,
    source: 'WikEM, Non-thumb metacarpal fracture (head): splint for 2–3 weeks, then motion',
    rays: FINGERS,
    regions: ['head'],
  },
  {
    id: 'neck-splint',
    name: 'Splint off, first motion',
    since: 'injury',
    fromDay: 3 * WEEK,
    toDay: 4 * WEEK,
    source:
      "American Board of Family Medicine critique, quoted at timeofcare.com, Boxer's fracture: splint for 3–4 weeks",
    rays: FINGERS,
    regions: ['neck'],
  },
  {
    id: 'wires-out',
    name: 'Wires out, if there are any',
    since: 'reduction',
    fromDay: 4 * WEEK,
    toDay: 5 * WEEK,
    source:
      'Moon et al., transverse pinning of the ring metacarpal (21 hands); hand2elbow.com, thumb metacarpal fractures: 4–5 weeks',
    rays: null,
    regions: null,
  },
  {
    id: 'shaft-splint',
    name: 'Splint off, first motion',
    since: 'injury',
    fromDay: 4 * WEEK,
    toDay: 6 * WEEK,
    source: `${SHAFT_CARD}: splint for 4 weeks, 2 more if not healing`,
    rays: FINGERS,
    regions: ['shaft'],
  },
  {
    id: 'base-cast',
    name: 'Cast off, orthosis on',
    since: 'injury',
    fromDay: 4 * WEEK,
    toDay: 6 * WEEK,
    source: `${BASE_CARD}: cast for 4 weeks; orthosis for 4–6 weeks`,
    rays: FINGERS,
    regions: ['base'],
  },
  {
    id: 'thumb-spica',
    name: 'Thumb splint off',
    since: 'injury',
    fromDay: 4 * WEEK,
    toDay: 6 * WEEK,
    source:
      'Wheeless, Textbook of Orthopaedics, Extra-articular thumb metacarpal fractures: spica for 4–6 weeks',
    rays: ['thumb'],
    regions: null,
  },
  {
    id: 'plate-light-work',
    name: 'Light activity, after a plate',
    since: 'reduction',
    fromDay: 4 * WEEK,
    toDay: 8 * WEEK,
    source: `${EATON}: light work from 4 weeks, sport in a splint from 8`,
    rays: FINGERS,
    regions: ['shaft'],
  },
  {
    id: 'shaft-healed',
    name: 'Healed, everyday activity',
    since: 'injury',
    fromDay: 6 * WEEK,
    toDay: 8 * WEEK,
    source: `${SHAFT_CARD}: healing takes 6–8 weeks`,
    rays: FINGERS,
    regions: ['shaft'],
  },
  {
    id: 'grip-back',
    name: 'Grip back in most, by now',
    since: 'injury',
    fromDay: 60,
    toDay: 60,
    source: 'Porter et al., Arch Emerg Med 1988;5:212-215: complete in most by two months',
    rays: ['small'],
    regions: ['neck'],
  },
  {
    id: 'shaft-contact-sport',
    name: 'Contact sport',
    since: 'injury',
    fromDay: 10 * WEEK,
    toDay: 14 * WEEK,
    source: `${SHAFT_CARD}: none for 4–6 weeks after; the card does not say after what, here after healing`,
    rays: FINGERS,
    regions: ['shaft'],
  },
  {
    id: 'plate-unrestricted',
    name: 'Unrestricted, after a plate',
    since: 'reduction',
    fromDay: 12 * WEEK,
    toDay: 12 * WEEK,
    source: `${EATON}: unrestricted from 12 weeks`,
    rays: FINGERS,
    regions: ['shaft'],
  },
];

/** What publications expect for this bone; all that speak of no bone in particular where the case does not say. */
export function suggestedMilestones(ray: Ray | null, region: Region | null): readonly Milestone[] {
  const fits = <Value>(wanted: readonly Value[] | null, value: Value | null) =>
    wanted === null || (value !== null && wanted.includes(value));
  return SUGGESTIONS.filter(({ rays, regions }) => fits(rays, ray) && fits(regions, region)).map(
    ({ rays: _, regions: __, ...milestone }) => milestone,
  );
}
