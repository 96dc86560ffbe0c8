import { COMMON_PRACTICE } from './caution.ts';
import { type ExaminationCheck, YES_NO } from './check.ts';
import { CHAPTER } from './check-sources.ts';

const SHAFT_CARD = 'Family practice residency reference card, Metacarpal shaft fracture';
const BASE_CARD = 'Family practice residency reference card, Metacarpal base fracture';
const FISHER = 'Fisher 1983, fourth and fifth carpometacarpal dislocations (17 cases)';

/** What the fracture is like: its pieces, its joints, whether it holds, and the bone it is in. */
export const FRACTURE_CHECKS: readonly ExaminationCheck[] = [
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
