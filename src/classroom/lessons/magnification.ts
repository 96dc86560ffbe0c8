import { type Lesson, lessonSpec } from './lesson.ts';
import { SOURCES } from './sources.ts';

export const MAGNIFICATION: Lesson = {
  id: 'magnification',
  title: 'Magnification and length',
  lead: 'A length on a film is as right as its scale; an angle does not care.',
  text: [
    'The beam spreads from a point, so whatever lies above the detector is drawn larger than it is: by the distance from tube to detector divided by the distance from tube to bone. A hand flat on a detector a metre away is some 1 to 3 % too large, 1 to 2 mm on a metacarpal. That is as much as the shortening one looks for.',
    'On a cushion, in a cast or with the tube close by it is more. A film may state its scale at the detector or at the bone, and the worksheet says which. A picture of a film has no scale at all; then a length is a share of the bone, or waits until an object of known size has been marked. The object must lie as high above the detector as the bone.',
    'The same stretch in both directions leaves every angle as it was. That is why angles can be read off a photographed film, if it was taken straight on.',
    'Shortening is a difference of lengths: from the other hand, or from a neighbour on the same film. The second takes the magnification out by itself.',
  ],
  look: {
    spec: lessonSpec({
      hand: { sizeDeviation: 0 },
      fractures: [
        { ray: 'middle', region: 'shaft', shorteningMm: 3, apexRadialDegrees: 6, obliquityDegrees: 40 },
      ],
      view: { turnDegrees: 0 },
      beam: { kind: 'cone', sourceToDetectorMm: 1000, gapToDetectorMm: 5 },
      extras: { knownObject: { shape: 'ball', diameterMm: 25, heightMm: 15 } },
    }),
    filmSeed: 4502,
    ray: 'middle',
    dials: ['lift', 'distance', 'statedPlane', 'shortening'],
    facts: ['magnification', 'length-on-film', 'length', 'shown'],
    invitation: 'Lift the hand off the detector and watch the length on the film grow while the angle stays.',
  },
  task: {
    kind: 'predict',
    words:
      'The tube stands 1000 mm above the detector, and the bone lies 100 mm above it. By how much is the bone drawn too large?',
    unit: '%',
    // 1000 / (1000 − 100) = 1.111.
    answer: 11.1,
    within: 0.6,
    because:
      '1000 ÷ 900 = 1.111, so everything is 11 % too large: 7 mm on a metacarpal of 65 mm. Set the dial to 90 mm and see; the bone lies a little above the lowest point of the hand.',
  },
  sources: [SOURCES.magnification, SOURCES.foley, SOURCES.strauch],
};
