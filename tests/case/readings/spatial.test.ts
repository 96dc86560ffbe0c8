import { describe, expect, it } from 'vitest';
import type { FilmRecord } from '../../../src/case/document.ts';
import { dot, film, free, on } from '../samples.ts';
import { find, furtherOf, known, spacing } from './spiral-shaft.ts';

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
