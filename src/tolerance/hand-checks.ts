import { COMMON_PRACTICE } from './caution.ts';
import { type ExaminationCheck, YES_NO } from './check.ts';
import { CHAPTER } from './check-sources.ts';

const ATLAS = "The Atlas of Emergency Medicine, 5th edition, 2021, Boxer's fracture";
const FIGHT_BITE = `Mount Sinai Emergency Medicine, Fight bite (quoting Shewring); ${ATLAS}`;
const ROTATION =
  "Royal Children's Hospital Melbourne, Metacarpal fractures, emergency department guideline; OrthoVellum, Metacarpal fractures";
const DEL_PINAL =
  'del Piñal 2002, Plast Reconstr Surg 110:1232; case report, Compartment syndrome following metacarpal neck fractures';

/** What the hand itself shows, and the radiograph does not: skin, blood and nerve, rotation. */
export const HAND_CHECKS: readonly ExaminationCheck[] = [
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
];
