import { describe, it } from 'vitest';
import { dot, film, line } from './samples.ts';
import {
  angle,
  bent,
  expectSentence,
  length,
  noScale,
  pa,
  sound,
  spacing,
  type Wrong,
  without,
} from './wrong-case.ts';

const WRONG: Readonly<Record<string, Wrong>> = {
  'two lateral films for an angle in space': {
    records: [...bent('here', 20), ...bent('again', 30)],
    missing: [['again', 'spatial-angle']],
    says: /are only 0° apart, and 30° are needed/,
  },
  'views 20° apart': {
    records: [...bent('slant', 20, { view: 'oblique', turnDegrees: 70 }), ...bent('here', 30)],
    missing: [['here', 'spatial-angle']],
    says: /are only 20° apart, and 30° are needed for an angle in space: take a film from further round/,
  },
  'an oblique film of unknown turn': {
    records: [...bent('front', 20, pa), ...bent('slant', 30, { view: 'oblique' })],
    missing: [['slant', 'spatial-angle']],
    says: /how far the hand was turned for the oblique film of day 0: state it under Film/,
  },
  'films of two days': {
    records: [...bent('front', 20, { ...pa, day: 0 }), ...bent('here', 30, { day: 9 })],
    missing: [
      ['front', 'spatial-angle'],
      ['here', 'spatial-angle'],
    ],
    says: /needs a second film beside the .* of day/,
  },
  'a view that was not signed': {
    records: [...without(bent('front', 20, pa), 'front/radial-side'), ...bent('here', 30)],
    missing: [['here', 'spatial-angle']],
    says: /tap the radial side on the PA film of day 0/,
  },
  'an angle too steep for a tangent': {
    records: [...bent('front', 20, pa), ...bent('here', 85)],
    missing: [['here', 'spatial-angle']],
    says: /An angle of 85° is too steep for an angle in space/,
  },
  'a length without a scale': {
    records: [film('front', { ...pa, spacing: noScale }), length('front', 1400)],
    missing: [
      ['front', 'length'],
      ['front', 'shortening-by-other-hand'],
    ],
    says: /has no scale|other hand in the PA view is missing/,
  },
  'a length without length': {
    records: [film('front', { ...pa, spacing }), length('front', 2000)],
    missing: [['front', 'length']],
    says: /two ends of the length on the PA film of day 0 coincide: move them apart|other hand in the PA view/,
  },
  'lengths of two hands, one without a scale': {
    records: [
      film('front', { ...pa, spacing }),
      film('there', { ...pa, ...sound, spacing: noScale }),
      length('front', 1400),
      length('there', 1300),
    ],
    missing: [
      ['front', 'shortening-by-other-hand'],
      ['there', 'length'],
    ],
    says: /cannot be compared without a scale on both|has no scale/,
  },
  'a head line through one point': {
    records: [
      film('front', { ...pa, spacing }),
      length('front', 1400),
      line('front', 'head-line', [1200, 1340], [1200, 1340]),
      dot('front', 'head-point', [1000, 1400]),
    ],
    missing: [['front', 'head-line-distance']],
    says: /two heads of the head line on the PA film of day 0 lie too close together/,
  },
  'a head line with no wrist side': {
    records: [
      film('front', { ...pa, spacing }),
      line('front', 'head-line', [1200, 1340], [1400, 1340]),
      dot('front', 'head-point', [1000, 1400]),
    ],
    missing: [['front', 'head-line-distance']],
    says: /Which side of the head line on the PA film of day 0 is the wrist.s is not known/,
  },
  'overlap with no direction': {
    records: [film('front', { ...pa, spacing }), line('front', 'fracture-tips', [990, 1500], [1020, 1550])],
    missing: [['front', 'shortening-by-overlap']],
    says: /direction of the bone on the PA film of day 0 is not known/,
  },
  'an offset with one axis': {
    records: [
      ...without(bent('here', 20), 'here/distal-axis'),
      line('here', 'fracture-level', [950, 1550], [1050, 1550]),
    ],
    missing: [['here', 'translation'], angle('here')],
    says: /offset on the lateral film of day 0 needs both axes|distal axis on the lateral film/,
  },
  'an offset over a shaft without width': {
    records: [...bent('here', 20), line('here', 'fracture-level', [1000, 1550], [1000, 1550])],
    missing: [['here', 'translation']],
    says: /fracture level on the lateral film of day 0/,
  },
  'a joint surface without length': {
    records: [
      film('front', { ...pa, spacing }),
      line('front', 'joint-surface', [1000, 1000], [1000, 1000]),
      line('front', 'joint-edges', [1210, 1000], [1240, 1015]),
    ],
    missing: [['front', 'joint-step']],
    says: /joint surface on the PA film of day 0/i,
  },
  'edges without a joint surface': {
    records: [film('front', { ...pa, spacing }), line('front', 'joint-edges', [1210, 1000], [1240, 1015])],
    missing: [['front', 'joint-step']],
    says: /PA film of day 0/,
  },
  'nails that point away from one another': {
    records: [
      film('fist', { shows: 'fist', view: null, spacing }),
      line('fist', 'reference-nail', [500, 640], [500, 500]),
      line('fist', 'finger-nail', [784, 500], [700, 612]),
    ],
    missing: [['fist', 'nail-direction']],
    says: /fist photograph of day 0 point 143° apart/,
  },
  'a fist without the other hand': {
    records: [
      film('fist', { shows: 'fist', view: null, spacing }),
      line('fist', 'reference-nail', [500, 640], [500, 500]),
      line('fist', 'finger-nail', [700, 612], [784, 500]),
    ],
    missing: [['fist', 'nail-direction-difference']],
    says: /add a photograph of the other fist/,
  },
};

describe('wrong input', () => {
  it.each(Object.entries(WRONG))('%s: a sentence and no number', (_, wrong) => expectSentence(wrong));
});
