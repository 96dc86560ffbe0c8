import { type Lesson, lessonSpec, measureTask } from './lesson.ts';
import { SOURCES } from './sources.ts';

const BREAK = {
  ray: 'small',
  region: 'neck',
  level: 0.74,
  apexDorsalDegrees: 42,
  apexRadialDegrees: 3,
} as const;

export const VIEWS: Lesson = {
  id: 'views',
  title: 'Reading the views',
  lead: 'Know which way the hand lies before you draw a line on it.',
  text: [
    'On a PA film the hand lies flat on the detector, palm down. The metacarpals stand side by side, each alone, and one sees bends from side to side. What bends from back to palm points along the beam and hardly shows.',
    'A lateral turns the hand by a quarter. Now the bend from back to palm shows in full, but four bones lie over one another. To pick one out, follow it from a part that stands alone: the head that reaches farthest, the base that steps back. Turning the hand a little further, towards palm up, brings the ring and small fingers to the front; turning it back brings the index and middle finger.',
    'An oblique lies between. It parts the bones and is good for finding a break. It is a poor place to read an angle: it mixes both bends in a proportion that nobody knows.',
    'Three things tell a true lateral: the four heads lie nearly on one another, the shafts run parallel, and the pisiform and the scaphoid’s tubercle lie in line at the front of the wrist.',
  ],
  look: {
    spec: lessonSpec({ hand: { sizeDeviation: -0.3 }, fractures: [BREAK], view: { turnDegrees: 0 } }),
    filmSeed: 4100,
    ray: 'small',
    dials: ['turn'],
    facts: ['shown', 'forwards', 'sideways'],
    invitation:
      'Turn the hand from 0° to 90° and watch one bone among the others while the angle on the film grows.',
  },
  task: measureTask(
    'Find the small finger’s metacarpal on this lateral and measure its angle. Say the dorsal side too, so that the sign means something.',
    {
      id: 'lesson-views',
      title: 'Small finger, lateral',
      filmSeed: 4100,
      ray: 'small',
      request: { hand: { sizeDeviation: -0.3 }, fractures: [BREAK], view: { turnDegrees: 97 } },
    },
  ),
  sources: [SOURCES.wheelessViews, SOURCES.lamraski, SOURCES.practice],
};
