import { type Lesson, lessonSpec, measureTask } from './lesson.ts';
import { SOURCES } from './sources.ts';

const FRACTURE = {
  ray: 'index',
  region: 'neck',
  level: 0.75,
  apexDorsalDegrees: 27,
  apexRadialDegrees: 2,
} as const;

export const LIMITS_BY_FINGER: Lesson = {
  id: 'limits-by-finger',
  title: 'Limits, finger by finger',
  lead: 'The same angle is tolerated in one finger and not in the next.',
  text: [
    'The ring and small fingers move at the wrist: their metacarpals can swing by 10 to 30° at their bases and make up for a neck that leans. The index and middle finger are fixed to the wrist and cannot. So published limits for the neck run from 10 to 20° in the index and middle finger, 20 to 40° in the ring finger, 20 to 70° in the small finger.',
    'Those are ranges of opinion, not of nature. Sources disagree, copy one another, and seldom say which lines they drew or whether the normal came off. This tool keeps each set apart with its source and shows where a reading lies against it: inside, past, or “cannot tell” when the interval crosses the limit.',
    'An angle is not a decision. Surgeons who are shown the number choose surgery more often. Rotation, a wound, more than one broken bone, a joint surface: each weighs more than ten degrees either way.',
  ],
  look: {
    spec: lessonSpec({ hand: { sizeDeviation: 0 }, fractures: [FRACTURE], view: { turnDegrees: 80 } }),
    filmSeed: 4704,
    ray: 'index',
    dials: ['apexDorsal', 'turn'],
    facts: ['shown', 'forwards'],
    invitation:
      'Set the angle to 20°, 30°, 40°, and ask of each: would it be tolerated in the index finger? In the small one?',
  },
  task: measureTask(
    'Measure this index finger, and look at the outcome against the limits. Then think of the same angle in a small finger.',
    {
      id: 'lesson-limits',
      title: 'Index finger, neck',
      filmSeed: 4704,
      ray: 'index',
      request: { hand: { sizeDeviation: 0 }, fractures: [FRACTURE], view: { turnDegrees: 80 } },
    },
  ),
  sources: [SOURCES.limits, SOURCES.wheelessNeck, SOURCES.tosti],
};
