import { describe, expect, it } from 'vitest';
import { assessed, at, films, knownReading, reading, U } from '../assessed.ts';
import { film, mark } from '../samples.ts';

describe('length', () => {
  const length = mark('film-a/length', 'film-a', 'length', {
    construction: 'segment',
    from: at(1000, 1600),
    to: at(1000, 1000),
  });

  it('is in millimetres of the bone, less the magnification to reckon with', () => {
    const found = knownReading(assessed(film('film-a', { view: 'pa' }), length), 'film-a', 'length');
    // 600 pixels · 0.1 mm = 60 mm on the detector. A bone 10 to 30 mm above it, 1 m from the source, is shown
    // 1000/990 = 1.010101 to 1000/970 = 1.030928 times too long, in the middle 1.020514: 60 / 1.020514 = 58.79388.
    expect(found.value).toBeCloseTo(58.79388, 4);
    expect(found.unit).toBe('millimetres');
    // Placing: √2 · 0.5 / 1.020514 = 0.69289. Magnification: uniform, half-width 0.0104134, so a share of
    // 0.0104134 / √3 / 1.020514 = 0.0058913 of the length = 0.34637. Together √(0.69289² + 0.34637²) = 0.77464.
    expect(found.standardUncertainty).toBeCloseTo(0.77464, 4);
  });

  it('is not shown in millimetres where there is no scale', () => {
    const noScale = film('film-a', {
      spacing: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
    });
    expect(reading(assessed(noScale, length), 'film-a', 'length')).toMatchObject({
      state: 'missing',
      lacks: expect.stringContaining('lateral film of day 0 has no scale'),
    });
  });
});

describe('a film without a scale', () => {
  const spacing = { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] } as const;

  it('has angles, whose uncertainty comes from the length of the bone', () => {
    // 536.9 pixels stand for the small metacarpal's mean length of 53.69 mm (Buryanov and Kotiuk 2010,
    // table I): 10 pixels to the millimetre, as on the film with a scale.
    const bone = mark('film-a/length', 'film-a', 'length', {
      construction: 'segment',
      from: at(1000, 2000),
      to: at(1000, 2000 - 536.9),
    });
    const found = assessed(...films('film-a', 20, { spacing }), bone);
    const angle = knownReading(found, 'film-a', 'angulation');
    expect(angle.value).toBeCloseTo(20, 9);
    expect(angle.standardUncertainty).toBeCloseTo(U, 4);
    expect(found.cautions.map((caution) => caution.id)).toContain('no-spacing');
  });

  it('has wider intervals without a length, never narrower', () => {
    const angle = knownReading(assessed(...films('film-a', 20, { spacing })), 'film-a', 'angulation');
    expect(angle.standardUncertainty).toBeGreaterThan(U);
    expect(angle.budget[0]?.basis).toContain('guessed from how far the axes reach');
  });
});
