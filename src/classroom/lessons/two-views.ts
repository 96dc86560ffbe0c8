import { type Lesson, lessonSpec } from './lesson.ts';
import { SOURCES } from './sources.ts';

export const TWO_VIEWS: Lesson = {
  id: 'two-views',
  title: 'Why two views',
  lead: 'A bone is bent in space, and a film is flat.',
  text: [
    'A bend can lie in any plane. A PA film shows the part of it that goes to the side, a lateral the part that goes to the palm; neither shows the whole unless the bend happens to lie in its plane.',
    'From two films at right angles the whole follows: the tangent of the bend, squared, is the sum of the two tangents squared. It is always at least as much as the larger of the two readings. With 30° in one view and 30° in the other the bone is bent by 39°, in a plane halfway between.',
    'The rule needs views that are truly a quarter turn apart, and the near part of the bone lying flat in both. This tool works it out for any turn between the two, states how unsure it is, and refuses below 30° of turn, where two nearly equal films say nothing of depth.',
  ],
  look: {
    spec: lessonSpec({
      hand: { sizeDeviation: 0.2 },
      fractures: [
        { ray: 'index', region: 'shaft', level: 0.48, apexDorsalDegrees: 25, apexRadialDegrees: 22 },
      ],
      view: { turnDegrees: 0 },
    }),
    filmSeed: 4609,
    ray: 'index',
    dials: ['turn', 'apexDorsal', 'apexRadial'],
    facts: ['shown', 'sideways', 'forwards', 'space'],
    invitation:
      'Look at 0° and at 90°. Then find the turn at which the film shows the whole bend, and the one where it shows least.',
  },
  task: {
    kind: 'predict',
    words: 'A PA film shows 19°, the lateral of the same bone 14°. By how much is the bone bent in space?',
    unit: '°',
    // √(tan² 19° + tan² 14°) = tan 23.03°.
    answer: 23,
    within: 1.2,
    because:
      'tan² 19° + tan² 14° = 0.1807, and its root is the tangent of 23°. Adding the squares of the angles themselves gives 23.6°, near enough for small ones.',
  },
  sources: [SOURCES.obliquePlane, SOURCES.projection],
};
