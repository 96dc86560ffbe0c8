import type { InventedFilmRequest } from '../../phantom/spec.ts';
import { type Lesson, lessonSpec, measureTask } from './lesson.ts';
import { SOURCES } from './sources.ts';

const REQUEST: InventedFilmRequest = {
  hand: { sizeDeviation: 0.2, sex: 'female' },
  fractures: [{ ray: 'ring', region: 'neck', level: 0.73, apexDorsalDegrees: 36, shorteningMm: 1 }],
  view: { turnDegrees: 98 },
};

export const CONSTRUCTIONS_LESSON: Lesson = {
  id: 'constructions',
  title: 'The canal and the head',
  lead: 'An axis is built from edges that can be seen, at two places far apart.',
  text: [
    'The shaft has a canal: a darker band between two bright walls. At two levels, far apart, place a point on each inner wall. The axis runs through the middles of the two pairs. Because each middle rests on two points, a point that is half a millimetre off moves the axis by a quarter.',
    'How far apart matters more than how carefully. Two levels 30 mm apart with points placed to half a millimetre give a direction good to about one degree; at 10 mm it is three.',
    'Beyond a break of the neck there is hardly any shaft left to draw along. The fragment is nearly a ball, and a ball has a centre: three points on the rim of the head fix a circle, and the axis runs from the middle of the broken end to the circle’s centre. The lever is short, 8 to 14 mm, so the broken end wants the most care.',
    'A line along the dorsal cortex is another thing again. It follows the surface, which bends otherwise than the middle, and has a normal of its own. Never mix it with the others from one film to the next.',
  ],
  look: {
    spec: lessonSpec(REQUEST),
    filmSeed: 4203,
    ray: 'ring',
    dials: ['level', 'jag'],
    facts: ['shown'],
    invitation: 'Move the break towards the head and watch how little is left to draw an axis by.',
  },
  task: measureTask(
    'Draw the proximal axis by the canal, with its two levels as far apart as the bone allows, and the distal one by the head circle.',
    { id: 'lesson-constructions', title: 'Ring finger, neck', filmSeed: 4203, ray: 'ring', request: REQUEST },
  ),
  sources: [SOURCES.sletten, SOURCES.lamraski, SOURCES.bhandari],
};
