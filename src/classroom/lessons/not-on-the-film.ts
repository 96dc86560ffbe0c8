import { type Lesson, lessonSpec } from './lesson.ts';
import { SOURCES } from './sources.ts';

export const NOT_ON_THE_FILM: Lesson = {
  id: 'not-on-the-film',
  title: 'What a film cannot show',
  lead: 'The two findings that decide most are found on the hand.',
  text: [
    'Rotation. A fragment that is turned about its own axis looks, on every view, almost as before: a tube turned in its sleeve. Yet a few degrees at the metacarpal carry the fingertip across its neighbour. It is found by looking: ask for a fist, see whether the fingers converge without crossing, compare the nails from the end with those of the other hand. Some overlap is normal, and mostly unequal on the two hands.',
    'A wound over a knuckle. A fist that met a tooth carries its bacteria into the joint, and the cut slides away from the hole beneath as the fingers open. The film may be normal. Such a wound is treated as a bite until it has been shown to be none.',
    'Stability, circulation, feeling, a tense swollen hand: none of them is on the film either. That is why the worksheet asks about them before it compares a number with a limit, and why an unanswered question stays in sight.',
  ],
  look: {
    spec: lessonSpec({
      hand: { sizeDeviation: 0 },
      fractures: [
        {
          ray: 'ring',
          region: 'shaft',
          level: 0.5,
          apexDorsalDegrees: 12,
          obliquityDegrees: 35,
          axialTurnDegrees: 0,
        },
      ],
      view: { turnDegrees: 0 },
    }),
    filmSeed: 4801,
    ray: 'ring',
    dials: ['axialTurn', 'turn'],
    facts: ['rotation', 'shown'],
    invitation: 'Turn the fragment by 20° and look for it on the film. Then on another view.',
  },
  task: {
    kind: 'predict',
    words:
      'A metacarpal is turned by 20° about its own axis. By how many degrees does the finger turn, going by what was measured in hands?',
    unit: '°',
    // 70 % of 20°.
    answer: 14,
    within: 2,
    because:
      'About 70 % of it arrives at the finger: 14°. That crosses the next finger plainly in a fist, and changes the angle on the film by next to nothing.',
  },
  sources: [SOURCES.gross, SOURCES.rotationNormal, SOURCES.biteShewring, SOURCES.rch],
};
