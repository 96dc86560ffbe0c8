import { exponential, logarithm } from './exact-maths.ts';

/**
 * Mass attenuation coefficients without coherent-scatter correction, cm²/g, and densities, g/cm³.
 *
 * NIST X-Ray Mass Attenuation Coefficients (Hubbell & Seltzer), ICRU-44 compositions: cortical bone, soft
 * tissue, dry air. The cells of soft tissue at 10, 15, 20, 30 and 50 keV, the whole rows of adipose tissue,
 * iron and lead, and the density of air are from memory; the rest was seen in published copies of the tables.
 */
const ENERGIES_KEV = [10, 15, 20, 30, 40, 50, 60, 80, 100, 150] as const;

const TABLES = {
  bone: {
    density: 1.92,
    massAttenuation: [28.51, 9.032, 4.001, 1.331, 0.6655, 0.4242, 0.3148, 0.2229, 0.1855, 0.148],
  },
  softTissue: {
    density: 1.06,
    massAttenuation: [5.379, 1.701, 0.823, 0.379, 0.2688, 0.2264, 0.2048, 0.1823, 0.1693, 0.1492],
  },
  fat: {
    density: 0.95,
    massAttenuation: [3.268, 1.083, 0.5677, 0.3063, 0.2396, 0.2123, 0.1974, 0.18, 0.1688, 0.15],
  },
  air: {
    density: 0.001205,
    massAttenuation: [5.12, 1.614, 0.7779, 0.3538, 0.2485, 0.208, 0.1875, 0.1662, 0.1541, 0.1356],
  },
  steel: {
    density: 7.87,
    massAttenuation: [170.6, 57.08, 25.68, 8.176, 3.629, 1.958, 1.205, 0.5952, 0.3717, 0.1964],
  },
  lead: {
    // The K edge at 88 keV is left out: a marker is opaque on either side of it.
    density: 11.35,
    massAttenuation: [130.6, 111.6, 86.36, 30.32, 14.36, 8.041, 5.021, 2.419, 2.2, 2.014],
  },
} as const;

export type Material = keyof typeof TABLES;

/** Least and greatest energy of the tables, in keV. */
export const ENERGY_RANGE_KEV = { from: ENERGIES_KEV[0], to: ENERGIES_KEV[9] } as const;

/**
 * Mass attenuation coefficient in cm²/g at an energy in keV, log-log interpolated between table rows.
 * Throws a RangeError outside the tables; specs are validated before they come here.
 */
export function massAttenuation(material: Material, energyKev: number): number {
  const { massAttenuation: values } = TABLES[material];
  if (!(energyKev >= ENERGY_RANGE_KEV.from && energyKev <= ENERGY_RANGE_KEV.to)) {
    throw new RangeError(
      `No attenuation at ${energyKev} keV: the tables run from ${ENERGY_RANGE_KEV.from} to ${ENERGY_RANGE_KEV.to} keV.`,
    );
  }
  const upper = Math.max(
    1,
    ENERGIES_KEV.findIndex((energy) => energy >= energyKev),
  );
  const e0 = ENERGIES_KEV[upper - 1]!;
  const e1 = ENERGIES_KEV[upper]!;
  const v0 = values[upper - 1]!;
  const v1 = values[upper]!;
  if (energyKev === e0) return v0;
  if (energyKev === e1) return v1;
  const share = logarithm(energyKev / e0) / logarithm(e1 / e0);
  return exponential(logarithm(v0) + share * logarithm(v1 / v0));
}

/** Linear attenuation coefficient in 1/mm at an energy in keV. */
export const attenuationPerMm = (material: Material, energyKev: number): number =>
  (massAttenuation(material, energyKev) * TABLES[material].density) / 10;

/** Share of a narrow beam that passes a layer, by the law of Beer and Lambert. */
export const transmission = (material: Material, energyKev: number, thicknessMm: number): number =>
  exponential(-attenuationPerMm(material, energyKev) * thicknessMm);
