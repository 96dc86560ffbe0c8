import { recordId } from '../../case/document.ts';
import { type Lesson, lessonSpec } from './lesson.ts';
import { SOURCES } from './sources.ts';

const HAND = { sizeDeviation: 0.3 } as const;
const onDay = (apexDorsalDegrees: number, turnDegrees: number, callus: number) =>
  lessonSpec({
    hand: HAND,
    fractures: [
      { ray: 'ring', region: 'shaft', level: 0.5, apexDorsalDegrees, obliquityDegrees: 20, callus },
    ],
    view: { turnDegrees },
  });

const WORDS =
  'Two films of one ring finger, on the day of the injury and ten days later. Measure both with the same lines. Has it moved, or have you?';

export const SERIAL_FILMS: Lesson = {
  id: 'serial-films',
  title: 'One injury, several films',
  lead: 'Two readings differ even when nothing has moved.',
  text: [
    'Measure the same film twice and the two numbers differ. Measure two films of the same bone and they differ more, because the hand lay a little otherwise. A change is a change only when it is larger than that.',
    'How large is worked out from what each reading knows of itself: 1.96 times the root of the two uncertainties squared and added. With ± 6° on each film, a difference of less than 8° may be nothing. What both readings share, such as one published normal, drops out.',
    'So the rules for follow-up are dull: the same view, the same lines, the same person if possible, and the earlier film beside the new one. A drift that goes the same way film after film means more than one jump.',
    'Serial films tell of loss of position in the first two weeks, when something can still be done. Later ones tell of healing, and callus hides the cortex that the axis was drawn by.',
  ],
  look: {
    spec: onDay(24, 97, 0),
    filmSeed: 4907,
    ray: 'ring',
    dials: ['apexDorsal', 'turn', 'callus'],
    facts: ['shown', 'forwards'],
    invitation:
      'Turn the hand by 10° without changing the bone: so much can the angle on a film move by itself.',
  },
  task: {
    kind: 'measure',
    words: WORDS,
    exercise: {
      id: 'lesson-serial',
      title: 'Ring finger, day 0 and day 10',
      task: WORDS,
      ray: 'ring',
      asked: 'angulation',
      films: [
        { id: recordId('lesson-serial-0'), hand: 'injured', spec: onDay(24, 97, 0), filmSeed: 4907, day: 0 },
        {
          id: recordId('lesson-serial-10'),
          hand: 'injured',
          spec: onDay(35, 93, 0.35),
          filmSeed: 4907,
          day: 10,
        },
      ],
    },
  },
  sources: [SOURCES.blandAltman, SOURCES.practice],
};
