import { describe, expect, it } from 'vitest';
import { comparePatients } from '../../src/app/films/same-patient.ts';

const whose = (...patients: readonly (string | null)[]) =>
  patients.map((patient, index) => ({ id: `film-${index + 1}`, patient }));
const none: ReadonlySet<string> = new Set();

describe('whether films name one patient', () => {
  it('asks nothing where all name one, or none', () => {
    for (const films of [whose('a', 'a'), whose(null, null), whose('a', null)]) {
      const found = comparePatients(films, none);
      expect(found.differ).toBe(false);
      expect(found.unquestioned).toEqual(new Set(['film-1', 'film-2']));
      expect(found.names.size).toBe(0);
    }
    expect(comparePatients(whose('a'), new Set(['a'])).differ).toBe(false);
  });

  it('asks when they differ among themselves, and takes none for granted', () => {
    const found = comparePatients(whose('a', 'b', null, 'a'), none);
    expect(found.differ).toBe(true);
    expect([...found.names.values()]).toEqual(['patient A', 'patient B', 'names no patient', 'patient A']);
    expect(found.unquestioned.size).toBe(0);
  });

  it('asks when they differ from the films of the case, and takes those of its patient for granted', () => {
    const found = comparePatients(whose('b', 'a'), new Set(['a']));
    expect(found.differ).toBe(true);
    expect([...found.names.values()]).toEqual(['patient A', 'the patient of this case']);
    expect(found.unquestioned).toEqual(new Set(['film-2']));
    expect(comparePatients(whose('b'), new Set(['a'])).differ).toBe(true);
  });

  it('never says who: keys appear in no name', () => {
    const keys = ['0f3a', '77bc'];
    const names = [...comparePatients(whose(...keys), none).names.values()].join(' ');
    for (const key of keys) expect(names).not.toContain(key);
  });
});
