import { type Lesson, lessonSpec, measureTask } from './lesson.ts';
import { SOURCES } from './sources.ts';

const HAND = { sizeDeviation: 0.1, sex: 'male' } as const;
const VIEW = { turnDegrees: 96 } as const;

export const NORMAL_TILT: Lesson = {
  id: 'normal-tilt',
  title: 'The bend of a sound bone',
  lead: 'A neck that was never broken does not measure zero.',
  text: [
    'Seen from the side a metacarpal is bowed, and its head leans towards the palm. Between the canal and the head a sound small finger measures some 10 to 15°, and people differ by 5° and more.',
    'So an angle of 40° is not a deformity of 40°. What the injury did is the measured angle less the normal. Some limits mean the one, some the other, and many do not say: a limit of “30°, true” and one of “45°, as measured” may describe the same bone.',
    'The best normal is the other hand, measured in the same view with the same lines. The next best is a published mean for those lines; its spread then belongs to the result and makes it much less sure. Taking nothing off is allowed too, as long as it is said.',
    'The film here shows an unbroken hand. The angle it shows is all normal.',
  ],
  look: {
    spec: lessonSpec({ hand: HAND, view: VIEW }),
    filmSeed: 4311,
    ray: 'small',
    dials: ['turn', 'sex', 'size'],
    facts: ['shown'],
    invitation:
      'Nothing is broken here. Turn the hand, change its build, and watch the angle that a sound neck shows.',
  },
  task: measureTask(
    'How far is this small finger out of line? Measure both hands with the same lines, and let the other hand give the normal.',
    {
      id: 'lesson-normal-tilt',
      title: 'Small finger with the other hand',
      filmSeed: 4311,
      ray: 'small',
      asked: 'deformity',
      otherHand: true,
      request: {
        hand: HAND,
        fractures: [{ ray: 'small', region: 'neck', level: 0.74, apexDorsalDegrees: 38 }],
        view: VIEW,
      },
    },
  ),
  sources: [SOURCES.rivlin, SOURCES.bhandari, SOURCES.limits],
};
