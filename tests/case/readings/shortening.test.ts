import { describe, expect, it } from 'vitest';
import type { CaseRecord } from '../../../src/case/document.ts';
import { dot, injury, line, settings } from '../samples.ts';
import { find, furtherOf, known, noScale, pa } from './spiral-shaft.ts';

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
