import { describe, expect, it } from 'vitest';
import { attenuationPerMm, massAttenuation, transmission } from '../../src/phantom/attenuation.ts';

/**
 * NIST X-Ray Mass Attenuation Coefficients (Hubbell & Seltzer), tables 2 and 4, cm²/g, ICRU-44 compositions
 * and densities. The soft tissue value at 30 keV is from memory.
 */
const NIST = [
  { material: 'bone', energy: 20, value: 4.001 },
  { material: 'bone', energy: 30, value: 1.331 },
  { material: 'bone', energy: 40, value: 0.6655 },
  { material: 'bone', energy: 60, value: 0.3148 },
  { material: 'softTissue', energy: 30, value: 0.379 },
  { material: 'softTissue', energy: 40, value: 0.2688 },
  { material: 'softTissue', energy: 100, value: 0.1693 },
  { material: 'air', energy: 40, value: 0.2485 },
] as const;

/** exp(-μ/ρ · ρ · t) from the same tables, worked out in Python 3.11 in double precision, apart from this code. */
const LAYERS = [
  { material: 'bone', energy: 30, thicknessMm: 1, passes: 0.7744889 },
  { material: 'bone', energy: 40, thicknessMm: 1, passes: 0.8800505 },
  { material: 'bone', energy: 40, thicknessMm: 3, passes: 0.6815893 },
  { material: 'softTissue', energy: 40, thicknessMm: 20, passes: 0.5656069 },
  { material: 'softTissue', energy: 30, thicknessMm: 20, passes: 0.447768 },
  { material: 'air', energy: 40, thicknessMm: 1000, passes: 0.9704996 },
] as const;

describe('attenuation', () => {
  it.each(NIST)('takes $material at $energy keV from the tables of NIST', ({ material, energy, value }) => {
    expect(massAttenuation(material, energy)).toBe(value);
  });

  it.each(LAYERS)('lets $passes through $thicknessMm mm of $material at $energy keV', (layer) => {
    expect(transmission(layer.material, layer.energy, layer.thicknessMm)).toBeCloseTo(layer.passes, 7);
  });

  it('goes between table rows on log-log lines', () => {
    // Same source as the layers above: bone at 35 keV 0.918068 cm²/g.
    expect(massAttenuation('bone', 35)).toBeCloseTo(0.918068, 6);
    expect(attenuationPerMm('bone', 35)).toBeCloseTo((0.918068 * 1.92) / 10, 6);
  });

  it('refuses energies outside the tables', () => {
    expect(() => massAttenuation('bone', 9.9)).toThrow(/9.9 keV/);
    expect(() => massAttenuation('bone', 151)).toThrow(RangeError);
    expect(() => massAttenuation('bone', Number.NaN)).toThrow(RangeError);
  });
});
