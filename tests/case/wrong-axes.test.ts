import { describe, expect, it } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import type { CaseRecord } from '../../src/case/document.ts';
import { filmsKeepingFinger } from '../../src/case/finger.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { caseOf, dot, film, free, injury, line, on, settings } from './samples.ts';
import {
  angle,
  bent,
  canal,
  cortex,
  deformity,
  expectSentence,
  fromOtherHand,
  length,
  type Pair,
  pa,
  replaced,
  rim,
  sound,
  spacing,
  type Wrong,
  withAxis,
  without,
} from './wrong-case.ts';

const WRONG: Readonly<Record<string, Wrong>> = {
  'an axis without length': withAxis(
    'distal-axis',
    free([1000, 1500], [1000, 1500]),
    /distal axis on the lateral film of day 0.*points coincide/i,
  ),
  'an axis of five pixels': withAxis(
    'proximal-axis',
    free([1000, 2000], [1000, 1995]),
    /is 0\.5\u2009mm long and needs at least 2\.5\u2009mm.*place its ends farther apart/,
  ),
  'a head circle through points in a row': withAxis(
    'distal-axis',
    rim([
      [1000, 1300],
      [1050, 1300],
      [1100, 1300],
    ]),
    /rim.*distal axis on the lateral film of day 0|distal axis on the lateral film of day 0.*rim/i,
  ),
  'a head circle through one point three times': withAxis(
    'distal-axis',
    rim([
      [1000, 1300],
      [1000, 1300],
      [1000, 1300],
    ]),
    /distal axis on the lateral film of day 0/,
  ),
  'a head circle on a sliver of the rim': withAxis(
    'distal-axis',
    rim(
      [265, 270, 275].map(
        (turn): Pair => [
          1000 + 65 * Math.cos((turn * Math.PI) / 180),
          1360 + 65 * Math.sin((turn * Math.PI) / 180),
        ],
      ),
    ),
    /rim.*45°|45°.*rim/,
  ),
  'a dorsal cortex of points in a heap': withAxis(
    'distal-axis',
    cortex([
      [1000, 1300],
      [1060, 1300],
      [1060, 1360],
      [1000, 1360],
    ]),
    /distal axis on the lateral film of day 0/,
  ),
  'a canal with both levels at one place': withAxis(
    'proximal-axis',
    canal([
      [
        [980, 1800],
        [1020, 1800],
      ],
      [
        [980, 1800],
        [1020, 1800],
      ],
    ]),
    /proximal axis on the lateral film of day 0/,
  ),
  'one axis only': {
    records: without(bent('here', 20), 'here/distal-axis'),
    missing: [angle('here')],
    says: /distal axis on the lateral film of day 0 is missing: place it/,
  },
  'a head circle through points in a row, and no other axis yet': {
    records: without(
      replaced(
        bent('here', 20),
        on(
          'here',
          'distal-axis',
          rim([
            [1000, 1300],
            [1050, 1300],
            [1100, 1300],
          ]),
        ),
      ),
      'here/proximal-axis',
    ),
    missing: [angle('here')],
    says: /proximal axis on .* is missing: place it\. The distal axis on .* spread them around the rim\./,
  },
  'a tap on the bone itself': {
    records: replaced(bent('here', 20), dot('here', 'dorsal-side', [1001, 1800])),
    missing: [angle('here')],
    says: /dorsal side on the lateral film of day 0 was tapped too near/,
  },
  'the other hand seen from elsewhere': {
    records: [...bent('here', 30), ...bent('there', 10, { ...sound, view: 'oblique' })],
    ...fromOtherHand,
    missing: deformity,
    says: /other hand is not measured in the lateral view: add its film and place both axes there/,
  },
  'another finger on the film of the other hand': {
    records: [...bent('here', 30), ...bent('there', 10, { ...sound, ray: 'ring' })],
    ...fromOtherHand,
    missing: deformity,
    says: /ring finger.*small finger/,
  },
  'lengths and head line of another finger': {
    records: [
      film('front', { ...pa, spacing }),
      film('there', { ...pa, ...sound, spacing, ray: 'ring' }),
      ...['front', 'there'].flatMap((id) => [
        length(id, id === 'front' ? 1400 : 1300),
        line(id, 'head-line', [1200, 1340], [1400, 1340]),
        dot(id, 'head-point', [1000, 1400]),
      ]),
    ],
    missing: [
      ['front', 'shortening-by-other-hand'],
      ['front', 'shortening-by-head-line'],
    ],
    says: /The ring finger is measured on the PA film of the other hand, ring finger, and the small finger is broken/,
  },
  'the nail of another finger': {
    records: ['fist', 'sound-fist'].flatMap((id) => [
      film(id, { shows: 'fist', view: null, spacing, ...(id === 'fist' ? {} : { ...sound, ray: 'ring' }) }),
      line(id, 'reference-nail', [500, 640], [500, 500]),
      line(id, 'finger-nail', [700, 612], [720, 500]),
    ]),
    missing: [['fist', 'nail-direction-difference']],
    says: /The ring finger is measured on the fist photograph of the other hand, ring finger/,
  },
  'the other hand built otherwise': {
    records: [
      ...bent('here', 30),
      ...replaced(
        bent('there', 10, sound),
        on(
          'there',
          'proximal-axis',
          cortex([
            [1000, 2000],
            [1000, 1600],
          ]),
        ),
      ),
    ],
    ...fromOtherHand,
    missing: deformity,
    says: /build both alike/,
  },
};

describe('wrong axes and normals', () => {
  it.each(Object.entries(WRONG))('%s: a sentence and no number', (_, wrong) => expectSentence(wrong));
});

describe('another finger on the other hand', () => {
  const both = [...bent('here', 30), ...bent('there', 10, sound)];

  it('is not taken off where the best normal is asked for', () => {
    const wrong = [...bent('here', 30), ...bent('there', 10, { ...sound, ray: 'ring' })];
    const normal = (records: readonly CaseRecord[]) =>
      assess(caseOf(injury(), settings(), ...records), SHIPPED_LIMIT_SETS).readings.find(
        ({ id }) => id === 'here/normal',
      );
    expect(normal(both)).toMatchObject({ value: expect.closeTo(10, 9) });
    // The conventional 15° stands in (docs/measurements/deformity.md).
    expect(normal(wrong)).toMatchObject({ value: 15 });
  });

  it('is what stays on its films when another finger turns out to be broken', () => {
    const document = caseOf(injury(), settings(), ...both, film('bare', sound));
    expect(filmsKeepingFinger(document, 'ring')).toEqual([
      expect.objectContaining({ id: 'there', ray: 'small' }),
    ]);
    expect(filmsKeepingFinger(document, 'small')).toEqual([]);
    expect(filmsKeepingFinger(caseOf(injury({ ray: null }), ...both), 'ring')).toEqual([]);
  });
});
