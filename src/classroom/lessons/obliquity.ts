import { type Lesson, lessonSpec, measureTask } from './lesson.ts';
import { SOURCES } from './sources.ts';

const FRACTURE = {
  ray: 'ring',
  region: 'shaft',
  level: 0.5,
  apexDorsalDegrees: 30,
  apexRadialDegrees: 12,
} as const;

export const OBLIQUITY: Lesson = {
  id: 'obliquity',
  title: 'What turning does',
  lead: 'An oblique film answers a question that nobody asked.',
  text: [
    'A bend that lies wholly in one plane shrinks as the hand turns out of the view: by little at first, by an eighth at 30°, by more than a quarter at 45°. If that were all, one could divide by a cosine and be done.',
    'It is not all. A bone that is bent to the side as well adds that bend as the view turns, and whether it adds or takes away depends on which way it leans. Real oblique films have read far higher than the laterals of the same bones, by up to 35°.',
    'Therefore this tool names the view with every reading, warns at an oblique, and never turns one into a lateral. If the lateral is missing, ask for it.',
  ],
  look: {
    spec: lessonSpec({ hand: { sizeDeviation: 0 }, fractures: [FRACTURE], view: { turnDegrees: 90 } }),
    filmSeed: 4405,
    ray: 'ring',
    dials: ['turn', 'apexRadial'],
    facts: ['shown', 'forwards', 'sideways'],
    invitation:
      'Turn the hand from the lateral towards PA. Then bend the bone to the other side and do it again.',
  },
  task: measureTask(
    'Measure the ring finger on this oblique film. Then see what the film shows and what the bone is.',
    {
      id: 'lesson-obliquity',
      title: 'Ring finger, oblique',
      filmSeed: 4405,
      ray: 'ring',
      request: { hand: { sizeDeviation: 0 }, fractures: [FRACTURE], view: { turnDegrees: 48 } },
    },
  ),
  sources: [SOURCES.projection, SOURCES.lamraski],
};
