import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/case/assess.ts';
import type { CaseRecord, FilmRecord } from '../../../src/case/document.ts';
import type { KnownReading, Quantity, Reading } from '../../../src/case/reading.ts';
import { SHIPPED_LIMIT_SETS } from '../../../src/tolerance/limit-sets.ts';
import { caseOf, dot, film, free, injury, line, on, settings } from '../samples.ts';

/** Pixels of 0.1 mm at the bone itself, so that no magnification is reckoned with. */
const { spacing: atDetector } = film('any');
const spacing = { ...atDetector, plane: 'patient' } as FilmRecord['spacing'];
const noScale: FilmRecord['spacing'] = {
  kind: 'ratio',
  rowToColumn: 1,
  origin: 'assumed-square',
  conflicts: [],
};

const pa = (id: string, overrides: Partial<FilmRecord> = {}) =>
  film(id, { view: 'pa', spacing, ...overrides });

const furtherOf = (...records: readonly CaseRecord[]) =>
  assess(caseOf(injury({ region: 'shaft', pattern: 'spiral' }), settings(), ...records), SHIPPED_LIMIT_SETS);
type Further = ReturnType<typeof furtherOf>;

const find = ({ readings }: Further, quantity: Quantity): Reading => {
  const found = readings.find((reading) => reading.quantity === quantity);
  if (found === undefined) throw new Error(`no ${quantity} among ${readings.map((one) => one.quantity)}`);
  return found;
};
const known = (further: Further, quantity: Quantity): KnownReading => {
  const found = find(further, quantity);
  if (found.state === 'missing') throw new Error(found.lacks);
  return found;
};

describe('shortening', () => {
  const both = [
    pa('here'),
    pa('there', { hand: 'other' }),
    line('here', 'length', [1000, 1600], [1000, 1040]),
    line('there', 'length', [1000, 1600], [1000, 1000]),
  ];

  it('by the other hand is the difference of the lengths', () => {
    const further = furtherOf(...both);
    const reading = known(further, 'shortening-by-other-hand');
    // 60.0 mm − 56.0 mm. Each length has two ends placed to 0.5 mm: √2 · 0.5; the difference √2 times that = 1.0.
    expect(reading.value).toBeCloseTo(4, 9);
    expect(reading.standardUncertainty).toBeCloseTo(1, 6);
    expect(reading.basis).toBe('Other hand, PA film of the other hand');
  });

  it('is compared with the limits, and cannot be told where 2–5 mm are in dispute', () => {
    const [first] = furtherOf(...both).comparisons;
    // limits.md: common practice, 2–5 mm; 4 ± 2 mm reaches across.
    expect(first).toMatchObject({
      outcome: 'cannot tell',
      readingId: 'here/shortening-by-other-hand',
      row: { quantity: 'shortening', band: { lo: 2, hi: 5 } },
    });
  });

  it('by the other hand needs a scale on both, by a neighbour on one', () => {
    const films = [
      pa('here'),
      pa('there', { hand: 'other', spacing: noScale }),
      line('here', 'length', [1000, 1600], [1000, 1080]),
      line('here', 'reference-length', [1100, 1640], [1100, 980]),
      line('there', 'length', [1000, 1500], [1000, 1000]),
      line('there', 'reference-length', [1100, 1600], [1100, 1000]),
    ];
    const further = furtherOf(...films);
    expect(find(further, 'shortening-by-other-hand')).toMatchObject({
      state: 'missing',
      lacks: expect.stringContaining('cannot be compared without a scale on both'),
    });
    // The neighbour is 66 mm here; on the other hand the two stand as 500 to 600: 55 mm expected, 52 mm found.
    expect(known(further, 'shortening-by-neighbours').value).toBeCloseTo(3, 9);
  });

  it('by a neighbour says which length is still missing once one of a neighbour is placed', () => {
    const lacks = (...records: readonly CaseRecord[]) =>
      find(furtherOf(...records), 'shortening-by-neighbours');
    const here = [
      pa('here'),
      line('here', 'length', [1000, 1600], [1000, 1080]),
      line('here', 'reference-length', [1100, 1640], [1100, 980]),
    ] as const;
    const there = pa('there', { hand: 'other' });
    expect(lacks(here[0], here[2])).toMatchObject({
      lacks: 'Shortening by a neighbour needs the length of the bone on the PA film of day 0 too: place it.',
    });
    expect(lacks(...here)).toMatchObject({
      lacks: expect.stringContaining('A film of the other hand in the PA view is missing'),
    });
    expect(lacks(...here, there, line('there', 'length', [1000, 1500], [1000, 1000]))).toMatchObject({
      lacks:
        'Shortening by a neighbour needs the length of the same neighbour on the PA film of the other hand too: place it.',
    });
    const both = [
      line('there', 'length', [1000, 1500], [1000, 1000]),
      line('there', 'reference-length', [1100, 1600], [1100, 1000]),
    ];
    expect(lacks(here[0], here[1], there, ...both)).toMatchObject({
      lacks:
        'Shortening by a neighbour needs the length of the same neighbour on the PA film of day 0 too: place it.',
    });
    // Of another finger: said, not dropped.
    expect(lacks(...here, pa('there', { hand: 'other', ray: 'ring' }), ...both)).toMatchObject({
      state: 'missing',
      lacks: expect.stringContaining('ring finger'),
    });
    expect(furtherOf(here[0], here[1]).readings.map(({ quantity }) => quantity)).not.toContain(
      'shortening-by-neighbours',
    );
  });

  it('by the head line says what is still missing once the line or the head is placed', () => {
    const headLine = line('here', 'head-line', [1000, 1000], [1200, 1000]);
    expect(find(furtherOf(pa('here'), headLine), 'head-line-distance')).toMatchObject({
      lacks:
        'The distance to the head line on the PA film of day 0 needs the farthest point of the head too: place it.',
    });
    expect(
      find(furtherOf(pa('here'), dot('here', 'head-point', [1300, 1060])), 'head-line-distance'),
    ).toMatchObject({
      lacks: 'The distance to the head line on the PA film of day 0 needs the head line too: place it.',
    });
  });

  it('by the head line is the difference of the distances below it', () => {
    const headLine = (id: string, below: number) => [
      line(id, 'head-line', [1000, 1000], [1200, 1000]),
      dot(id, 'head-point', [1300, 1000 + below]),
      line(id, 'length', [1300, 1600], [1300, 1000 + below]),
    ];
    const alone = furtherOf(pa('here'), ...headLine('here', 60));
    // 6.0 mm square to the line. The head lies 1.5 head distances out: √(0.5² + 1.5² + 1²) · 0.5 mm = 0.935414.
    expect(known(alone, 'head-line-distance').value).toBeCloseTo(6, 9);
    expect(known(alone, 'head-line-distance').standardUncertainty).toBeCloseTo(0.935414, 5);
    // Without the other hand the published gap of 2 mm or less stands in, evenly from 0 to 2: 1 mm, u = 1/√3 mm.
    // √(0.935414² + 0.577350²) = 1.099242.
    const published = known(alone, 'shortening-by-head-line');
    expect(published.value).toBeCloseTo(5, 9);
    expect(published.standardUncertainty).toBeCloseTo(1.099242, 5);
    expect(published.basis).toContain('2 mm or less');
    for (const more of [
      settings({ normal: 'other-hand' }),
      settings({ normal: 'zero' }),
      injury({ ray: 'ring' }),
    ])
      expect(
        find(furtherOf(pa('here'), ...headLine('here', 60), more), 'shortening-by-head-line'),
      ).toMatchObject({
        lacks: expect.stringContaining('on the other hand is not known'),
      });
    const further = furtherOf(
      pa('here'),
      ...headLine('here', 60),
      pa('there', { hand: 'other' }),
      ...headLine('there', 20),
    );
    const reading = known(further, 'shortening-by-head-line');
    expect(reading.value).toBeCloseTo(4, 9);
    // √2 · 0.935414 = 1.322875
    expect(reading.standardUncertainty).toBeCloseTo(1.322875, 5);
  });

  it('by overlap is taken along the bone', () => {
    const further = furtherOf(
      pa('here'),
      line('here', 'length', [1000, 1600], [1000, 1000]),
      // The proximal fragment's tip reaches up to row 1300, the distal one's down to row 1350.
      line('here', 'fracture-tips', [990, 1300], [1020, 1350]),
    );
    expect(known(further, 'shortening-by-overlap').value).toBeCloseTo(5, 9);
  });
});

describe('displacement', () => {
  const axes = [
    film('film-a', { spacing }),
    on('film-a', 'proximal-axis', free([1000, 2000], [1000, 1600])),
    on('film-a', 'distal-axis', free([1030, 1500], [1030, 1200])),
    line('film-a', 'fracture-level', [950, 1550], [1050, 1550]),
  ];

  it('sideways is read at the fracture, in mm and of the shaft’s width', () => {
    const further = furtherOf(...axes, dot('film-a', 'dorsal-side', [400, 1700]));
    // 30 pixels aside of a shaft of 100 pixels; away from the tapped dorsal side.
    expect(known(further, 'translation').value).toBeCloseTo(3, 9);
    expect(known(further, 'translation-of-width')).toMatchObject({
      unit: 'percent of shaft width',
      basis: 'Distal fragment displaced to the volar side',
    });
    expect(known(further, 'translation-of-width').value).toBeCloseTo(30, 9);
  });

  it('sideways needs both axes', () => {
    expect(find(furtherOf(axes[0]!, axes[1]!, axes[3]!), 'translation')).toMatchObject({
      lacks: 'The offset on the lateral film of day 0 needs both axes: place them.',
    });
  });

  it('of a joint surface is a step across it and a gap along it', () => {
    const surface = line('here', 'joint-surface', [1000, 1000], [1200, 1000]);
    const further = furtherOf(pa('here'), surface, line('here', 'joint-edges', [1210, 1000], [1240, 1015]));
    expect(known(further, 'joint-step').value).toBeCloseTo(1.5, 9);
    expect(known(further, 'joint-gap').value).toBeCloseTo(3, 9);
    expect(find(furtherOf(pa('here'), surface), 'joint-step')).toMatchObject({
      lacks:
        'Step and gap on the PA film of day 0 need the broken edges of the joint surface too: place them.',
    });
  });

  it('on a film without a scale is a share of the bone, or says what is wanted', () => {
    const marks = [
      line('here', 'joint-surface', [1000, 1000], [1200, 1000]),
      line('here', 'joint-edges', [1210, 1000], [1240, 1015]),
    ];
    const bone = line('here', 'length', [900, 1600], [900, 1000]);
    const share = furtherOf(pa('here', { spacing: noScale }), ...marks, bone);
    // 15 pixels of a bone of 600.
    expect(known(share, 'joint-step')).toMatchObject({ unit: 'percent of bone' });
    expect(known(share, 'joint-step').value).toBeCloseTo(2.5, 9);
    expect(share.comparisons).toEqual([]);
    expect(find(furtherOf(pa('here', { spacing: noScale }), ...marks), 'joint-step')).toMatchObject({
      lacks: expect.stringContaining('has no scale'),
    });
  });
});

describe('angle in space', () => {
  const bent = (id: string, apart: number, overrides: Partial<FilmRecord>, tapped = true) => {
    const angle = (apart * Math.PI) / 180;
    const role = overrides.view === 'pa' ? 'radial-side' : 'dorsal-side';
    return [
      film(id, { spacing, ...overrides }),
      on(id, 'proximal-axis', free([1000, 2000], [1000, 1600])),
      on(id, 'distal-axis', free([1000, 1500], [1000 + 300 * Math.sin(angle), 1500 - 300 * Math.cos(angle)])),
      ...(tapped ? [dot(id, role, [400, 1700])] : []),
    ];
  };

  it('comes from a PA and a lateral film of one day', () => {
    const further = furtherOf(
      ...bent('front', 20, { view: 'pa', day: 3 }),
      ...bent('side', 30, { view: 'lateral', day: 3 }),
    );
    // tan²θ = tan² 20° + tan² 30° = 0.132474 + 0.333333, θ = 34.3136°; towards atan2(tan 30°, tan 20°) = 57.7721°.
    expect(known(further, 'spatial-angle').value).toBeCloseTo(34.3136, 4);
    expect(known(further, 'spatial-direction').value).toBeCloseTo(57.7721, 4);
  });

  it('is not made of films of different days, nor without a direction', () => {
    const apart = furtherOf(
      ...bent('front', 20, { view: 'pa', day: 0 }),
      ...bent('side', 30, { view: 'lateral', day: 9 }),
    );
    expect(apart.readings.filter(({ quantity }) => quantity === 'spatial-angle')).toMatchObject([
      {
        lacks:
          'The angle in space needs a second film beside the PA film of day 0, turned by 30° or more: add a lateral film of the same day and place both axes on it.',
      },
      { state: 'missing' },
    ]);
    const unsigned = furtherOf(
      ...bent('front', 20, { view: 'pa', day: 3 }, false),
      ...bent('side', 30, { view: 'lateral', day: 3 }),
    );
    expect(find(unsigned, 'spatial-angle')).toMatchObject({
      lacks: expect.stringContaining('tap the radial side on the PA film of day 3'),
    });
  });

  it('is not made of undated films, which may be weeks apart: their days are asked for', () => {
    const undated = furtherOf(
      ...bent('front', 20, { view: 'pa', day: null }),
      ...bent('side', 30, { view: 'lateral', day: null }),
    );
    expect(undated.readings.filter(({ quantity }) => quantity === 'spatial-angle')).toMatchObject([
      {
        filmId: 'front',
        lacks:
          'The angle in space needs two films of one day: state the day of the undated PA film and of the undated lateral film under Film.',
      },
    ]);
    expect(find(furtherOf(...bent('front', 20, { view: 'pa', day: null })), 'spatial-angle')).toMatchObject({
      lacks: expect.stringContaining('needs a second film beside the undated PA film'),
    });
    const one = furtherOf(
      ...bent('front', 20, { view: 'pa', day: null }),
      ...bent('side', 30, { view: 'lateral', day: 3 }),
    );
    expect(one.readings.filter(({ quantity }) => quantity === 'spatial-angle')).toMatchObject([
      { filmId: 'side', state: 'missing' },
      { filmId: 'front', lacks: expect.stringContaining('state the day of the undated PA film under Film') },
    ]);
  });

  it('is not made of films from before and after a reduction, be they of one day', () => {
    const before = bent('front', 20, { view: 'pa', day: 0 });
    const side = (moment: FilmRecord['moment']) => bent('side', 30, { view: 'lateral', day: 0, moment });
    const apart = furtherOf(...before, ...side('after-reduction'));
    expect(apart.readings.filter(({ quantity }) => quantity === 'spatial-angle')).toMatchObject([
      {
        filmId: 'front',
        lacks: expect.stringContaining('a lateral film of the same day, before the reduction,'),
      },
      { filmId: 'side', lacks: expect.stringContaining('a PA film of the same day, after the reduction,') },
    ]);
    // A film of which nothing is said lies before what was done to the hand (course/order.ts).
    expect(known(furtherOf(...before, ...side('before-reduction')), 'spatial-angle').value).toBeGreaterThan(
      30,
    );
    expect(known(furtherOf(...before, ...side('follow-up')), 'spatial-angle').value).toBeGreaterThan(30);
    const both = furtherOf(
      ...before,
      ...side('after-reduction'),
      ...bent('front-after', 0, { view: 'pa', day: 0, moment: 'after-reduction' }),
    );
    // tan² θ = tan² 0° + tan² 30°: the two films after the reduction, and not the PA film of before.
    const spatial = both.readings.filter(({ quantity }) => quantity === 'spatial-angle');
    expect(spatial).toMatchObject([
      { filmId: 'front', state: 'missing' },
      { filmId: 'side', value: expect.closeTo(30, 4) },
    ]);
  });

  it('names the film that is there and not measured yet', () => {
    const [front, ...rest] = bent('front', 20, { view: 'pa', day: 3 });
    const alone = furtherOf(front!, ...rest, film('side', { view: 'lateral', day: 3 }));
    expect(find(alone, 'spatial-angle')).toMatchObject({
      lacks: expect.stringContaining('place both axes on the lateral film of day 3 too'),
    });
  });

  it('is refused from two lateral films and from views 20° apart', () => {
    const twice = furtherOf(
      ...bent('one', 20, { view: 'lateral', day: 3 }),
      ...bent('two', 30, { view: 'lateral', day: 3 }),
    );
    expect(find(twice, 'spatial-angle')).toMatchObject({
      lacks: expect.stringContaining('are only 0° apart, and 30° are needed'),
    });
    const close = furtherOf(
      ...bent('one', 20, { view: 'oblique', day: 3, turnDegrees: 70 }),
      ...bent('two', 30, { view: 'lateral', day: 3 }),
    );
    expect(find(close, 'spatial-angle')).toMatchObject({
      lacks: expect.stringContaining('are only 20° apart, and 30° are needed'),
    });
  });

  it('uses an oblique film once its turn is stated, and asks for it until then', () => {
    const front = bent('front', 20, { view: 'pa', day: 3 });
    const unsaid = furtherOf(...front, ...bent('slant', 30, { view: 'oblique', day: 3 }));
    expect(find(unsaid, 'spatial-angle')).toMatchObject({
      lacks: expect.stringContaining('how far the hand was turned for the oblique film of day 3'),
    });
    // Independent of the app: a distal axis along (radial, dorsal, distal) = (tan 20°, tan 30°, 1). The hand
    // turned by 60° from PA, palm rising, carries the dorsal side of the film to −sin 30° radial and cos 30° dorsal,
    // so the film sees tan a = −cos 60° · tan 20° + sin 60° · tan 30° = 0.318015, a = 17.6416°.
    const stated = furtherOf(
      ...front,
      ...bent('slant', 17.6416, { view: 'oblique', day: 3, turnDegrees: 60 }),
    );
    expect(known(stated, 'spatial-angle').value).toBeCloseTo(34.3136, 3);
    expect(known(stated, 'spatial-direction').value).toBeCloseTo(57.7721, 3);
  });
});
