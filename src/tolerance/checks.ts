import type { AgeGroup, Region } from './anatomy.ts';
import { type CautionGrade, COMMON_PRACTICE } from './caution.ts';

/** The words shown for one state of a check. */
export interface CheckCaution {
  readonly grade: CautionGrade;
  readonly title: string;
  readonly why: string;
  readonly usually: string;
  readonly source: string;
}

/** What belongs together on the form, in the order in which it is asked. */
export const CHECK_GROUPS = ['skin', 'blood and nerve', 'rotation', 'fracture', 'stability', 'age'] as const;
export type CheckGroup = (typeof CHECK_GROUPS)[number];

const YES_NO = { no: 'no', yes: 'yes' } as const;

/** One question of the examination, answered by yes or no; an answer that is absent was not given. */
export interface ExaminationCheck {
  readonly id: string;
  /** The whole question. */
  readonly question: string;
  /** The same as a line of the form has it, read with `words` as its answers. */
  readonly short: string;
  readonly group: CheckGroup;
  readonly words: { readonly no: string; readonly yes: string };
  readonly worrying: 'yes' | 'no';
  /** Null: any. Where the case does not say, the check is asked. */
  readonly ages: readonly AgeGroup[] | null;
  readonly regions: readonly Region[] | null;
  readonly whenWorrying: CheckCaution;
  /** Only for checks that must not be passed over. */
  readonly whenUnanswered: CheckCaution | null;
}

const ATLAS = "The Atlas of Emergency Medicine, 5th edition, 2021, Boxer's fracture";
const FIGHT_BITE = `Mount Sinai Emergency Medicine, Fight bite (quoting Shewring); ${ATLAS}`;
const SHAFT_CARD = 'Family practice residency reference card, Metacarpal shaft fracture';
const BASE_CARD = 'Family practice residency reference card, Metacarpal base fracture';
const FISHER = 'Fisher 1983, fourth and fifth carpometacarpal dislocations (17 cases)';
const CHAPTER = 'Book chapter, doi 10.1007/978-3-319-78387-1_47, Springer, summary box';
const ROTATION =
  "Royal Children's Hospital Melbourne, Metacarpal fractures, emergency department guideline; OrthoVellum, Metacarpal fractures";
const DEL_PINAL =
  'del Piñal 2002, Plast Reconstr Surg 110:1232; case report, Compartment syndrome following metacarpal neck fractures';

/** In the order in which they are asked: what cannot wait comes first. */
export const EXAMINATION_CHECKS: readonly ExaminationCheck[] = [
  {
    id: 'knuckle-wound',
    short: 'Wound over a knuckle',
    group: 'skin',
    words: YES_NO,
    question: 'Is there a wound over a knuckle, however small?',
    worrying: 'yes',
    ages: null,
    regions: null,
    whenWorrying: {
      grade: 'stop',
      title: 'Wound over a knuckle: a bite until proven otherwise',
      why: 'A tooth can enter the joint through a small cut: in explored series the joint was open in 62–96 of 100, and deep infection follows whatever the film shows.',
      usually:
        'Usually left unsutured, filmed for a tooth fragment, and shown the same day to those who explore, wash out and give antibiotics.',
      source: `${FIGHT_BITE}; University of Maryland emergency medicine teaching note 1861`,
    },
    whenUnanswered: {
      grade: 'warn',
      title: 'Knuckles not yet looked at for a wound',
      why: 'A bite wound over the joint matters more than any angle, and is easily missed in a closed-looking hand.',
      usually: 'Usually the skin over every knuckle is looked at with the fist closed.',
      source: ATLAS,
    },
  },
  {
    id: 'open-fracture',
    short: 'Skin broken over or near the fracture',
    group: 'skin',
    words: YES_NO,
    question: 'Is the skin broken over or near the fracture?',
    worrying: 'yes',
    ages: null,
    regions: null,
    whenWorrying: {
      grade: 'stop',
      title: 'Open fracture',
      why: 'Contamination and soft-tissue damage decide the urgency, not the angle.',
      usually:
        'Usually covered with a clean dressing, antibiotics and tetanus cover considered by local protocol, and referred at once.',
      source: `${CHAPTER}; Kids Health WA, Hand fractures`,
    },
    whenUnanswered: {
      grade: 'warn',
      title: 'Skin not yet checked for an open fracture',
      why: 'No limit on this page holds for an open fracture.',
      usually: 'Usually the whole hand is looked at before the film is measured.',
      source: CHAPTER,
    },
  },
  {
    id: 'circulation',
    short: 'Warm, pink, and refills promptly',
    group: 'blood and nerve',
    words: YES_NO,
    question: 'Is the finger warm and pink, and does colour return promptly after the nail is pressed?',
    worrying: 'no',
    ages: null,
    regions: null,
    whenWorrying: {
      grade: 'stop',
      title: 'Poor circulation',
      why: 'A finger without blood does not wait for a measurement.',
      usually:
        'Usually tight dressings and rings come off, gross displacement is straightened, and help is called at once.',
      source: 'Kids Health WA, Hand fractures; common practice',
    },
    whenUnanswered: {
      grade: 'warn',
      title: 'Circulation not yet checked',
      why: 'A radiograph shows nothing of the blood supply.',
      usually: 'Usually warmth, colour and refill are noted before and after any reduction or splint.',
      source: COMMON_PRACTICE,
    },
  },
  {
    id: 'tense-swelling',
    short: 'Tense swelling, pain on stretch, or numbness',
    group: 'blood and nerve',
    words: YES_NO,
    question:
      'Is the hand tensely swollen, is gently stretching the fingers very painful, or is feeling lost?',
    worrying: 'yes',
    ages: null,
    regions: null,
    whenWorrying: {
      grade: 'stop',
      title: 'Tense swelling, pain on stretch or numbness: pressure in the hand',
      why: 'Compartment syndrome has followed a mere punch; the classic signs can be missing, and tense swelling may be all there is. Numbness may also be a nerve injury.',
      usually:
        'Usually dressings are split, the hand is raised to heart level, and a surgeon is asked at once.',
      source: `${DEL_PINAL}; common practice`,
    },
    whenUnanswered: {
      grade: 'warn',
      title: 'Swelling, pain on stretch and feeling not yet checked',
      why: 'Pressure in the hand is rare, cannot be seen on the film, and does not wait.',
      usually:
        'Usually the hand is felt, the fingers gently stretched, and feeling noted on both sides of each finger.',
      source: DEL_PINAL,
    },
  },
  {
    id: 'rotation',
    short: 'A finger overlaps, crosses or turns away in the fist',
    group: 'rotation',
    words: YES_NO,
    question: 'On making a fist, does a finger overlap, cross or turn away from its neighbours?',
    worrying: 'yes',
    ages: null,
    regions: null,
    whenWorrying: {
      grade: 'stop',
      title: 'Rotation or overlap on making a fist',
      why: 'Nearly every source accepts none, whatever the angle: 5° of turn at the metacarpal carries the fingertip about 10 mm across.',
      usually:
        'Usually compared with the other hand, since slight overlap is common in whole hands, then reduced or referred.',
      source: `${ROTATION}; Wheeless, Textbook of Orthopaedics, Oblique metacarpal shaft fractures; Variation in digital rotation and alignment in normal subjects (240 fingers)`,
    },
    whenUnanswered: {
      grade: 'warn',
      title: 'Rotation not yet checked',
      why: 'Rotation cannot be read off a radiograph, and an angle inside the limit says nothing about it.',
      usually: 'Usually the fingers are bent together and the nails and tips compared with the other hand.',
      source: ROTATION,
    },
  },
  {
    id: 'cmc-dislocation',
    short: 'Joint to the wrist out of place, or not seen clearly',
    group: 'fracture',
    words: YES_NO,
    question: 'Is a joint between this metacarpal and the wrist out of place, or not seen clearly?',
    worrying: 'yes',
    ages: null,
    regions: ['base'],
    whenWorrying: {
      grade: 'stop',
      title: 'Base fracture with a possible carpometacarpal dislocation',
      why: 'A dislocation at the base is unstable and easily missed; most go dorsally (71 of 100 in one series).',
      usually:
        'Usually further oblique views or CT are asked for, the ulnar nerve is tested, and the hand is referred.',
      source: `${FISHER}; ${BASE_CARD}`,
    },
    whenUnanswered: {
      grade: 'warn',
      title: 'Base fracture: carpometacarpal joints not yet checked',
      why: 'Dislocation of the ring and small carpometacarpal joints is easily missed on plain films.',
      usually: 'Usually joint spaces of 1–2 mm, parallel surfaces and overlap are looked for in every view.',
      source: FISHER,
    },
  },
  {
    id: 'held-after-reduction',
    short: 'Position after reduction',
    group: 'stability',
    words: { no: 'slips', yes: 'holds' },
    question: 'If it was reduced: does the position hold?',
    worrying: 'no',
    ages: null,
    regions: null,
    whenWorrying: {
      grade: 'warn',
      title: 'Correction lost after reduction',
      why: 'A position that slips back is unstable, and the limits are meant for a position that stays.',
      usually: 'Usually referred.',
      source: `${SHAFT_CARD}; WikEM, Non-thumb metacarpal fracture (neck)`,
    },
    whenUnanswered: null,
  },
  {
    id: 'several-metacarpals',
    short: 'Metacarpals broken',
    group: 'fracture',
    words: { no: 'one', yes: 'several' },
    question: 'Is more than one metacarpal broken?',
    worrying: 'yes',
    ages: null,
    regions: null,
    whenWorrying: {
      grade: 'warn',
      title: 'More than one metacarpal broken',
      why: 'Neighbours no longer splint each other; the limits are for a single broken ray.',
      usually: 'Usually referred.',
      source: `${CHAPTER}; ${SHAFT_CARD}`,
    },
    whenUnanswered: null,
  },
  {
    id: 'comminuted',
    short: 'Pieces',
    group: 'fracture',
    words: { no: 'two', yes: 'several' },
    question: 'Is the bone broken into several pieces?',
    worrying: 'yes',
    ages: null,
    regions: null,
    whenWorrying: {
      grade: 'warn',
      title: 'Comminuted fracture',
      why: 'Several pieces hold neither angle nor length well, and axes drawn on them are less certain than the interval says.',
      usually: 'Usually referred, and filmed again early if it is treated in a splint.',
      source: `${SHAFT_CARD}; WikEM, Non-thumb metacarpal fracture (neck)`,
    },
    whenUnanswered: null,
  },
  {
    id: 'joint-surface',
    short: 'Step or gap in a joint surface',
    group: 'fracture',
    words: YES_NO,
    question: 'Does the fracture reach a joint surface with a step or a gap?',
    worrying: 'yes',
    ages: null,
    regions: null,
    whenWorrying: {
      grade: 'warn',
      title: 'Joint surface with a step or a gap',
      why: 'Limits of angulation do not apply to a joint surface; at the head of a finger no displacement is accepted by the sources on file.',
      usually: 'Usually CT is considered and the hand referred.',
      source: `WikEM, Non-thumb metacarpal fracture (head); OrthoVellum, Thumb base fractures; ${CHAPTER}`,
    },
    whenUnanswered: null,
  },
  {
    id: 'growth-plates',
    short: 'Growth plates still open',
    group: 'age',
    words: YES_NO,
    question: 'Are the growth plates still open?',
    worrying: 'yes',
    ages: ['child'],
    regions: null,
    whenWorrying: {
      grade: 'warn',
      title: 'Open growth plates',
      why: 'Growth changes both what corrects itself and what is harmed; adult limits do not apply, and the published limits for children disagree.',
      usually:
        "Usually judged by those who treat children's hands; a tilt at the growth plate is not straightened late.",
      source:
        "Royal Children's Hospital Melbourne, Metacarpal fractures, emergency department guideline; Pediatric EM Morsels, Metacarpal fractures; common practice",
    },
    whenUnanswered: {
      grade: 'warn',
      title: 'Growth plates not yet looked at',
      why: 'In a child the growth plate decides which rules apply.',
      usually:
        'Usually the head end of a finger metacarpal and the base end of the thumb one are looked at in two views.',
      source: 'Pediatric EM Morsels, Metacarpal fractures; common practice',
    },
  },
  {
    id: 'bone-lesion',
    short: 'Bone looks diseased, or broke with next to no force',
    group: 'fracture',
    words: YES_NO,
    question: 'Does the bone look diseased at the break, or did it break with next to no force?',
    worrying: 'yes',
    ages: null,
    regions: null,
    whenWorrying: {
      grade: 'warn',
      title: 'Suspected lesion in the bone',
      why: 'A fracture through an enchondroma or other lesion is first a question of what the lesion is.',
      usually: 'Usually shown to a radiologist or hand surgeon before anything is decided by the angle.',
      source: COMMON_PRACTICE,
    },
    whenUnanswered: null,
  },
];

/** Whether a check that was not made is a caution in itself, once the injury is known to be such. */
export const mattersUnanswered = (
  check: ExaminationCheck,
  injury: { readonly region: Region | null; readonly ageGroup: AgeGroup | null },
): boolean =>
  check.whenUnanswered !== null &&
  (check.ages === null || injury.ageGroup !== null) &&
  (check.regions === null || injury.region !== null);

/** The checks to ask for this injury, in order. What is not said of the injury leaves a check in. */
export function checksFor(injury: {
  readonly region: Region | null;
  readonly ageGroup: AgeGroup | null;
}): readonly ExaminationCheck[] {
  const fits = <Value>(wanted: readonly Value[] | null, value: Value | null) =>
    wanted === null || value === null || wanted.includes(value);
  return EXAMINATION_CHECKS.filter(
    (check) => fits(check.ages, injury.ageGroup) && fits(check.regions, injury.region),
  );
}
