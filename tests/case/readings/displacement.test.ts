import { describe, expect, it } from 'vitest';
import { dot, film, free, line, on } from '../samples.ts';
import { find, furtherOf, known, noScale, pa, spacing } from './spiral-shaft.ts';

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
