import { describe, expect, it } from 'vitest';
import { DEFAULT_SPEC_NAMES, defaultSpec } from '../../src/phantom/default-specs.ts';
import { parseSpec, specErrorSentence } from '../../src/phantom/spec.ts';

const problemsOf = (request: unknown): readonly string[] => {
  const parsed = parseSpec(request);
  return parsed.ok ? [] : parsed.error.problems.map(({ field }) => field);
};

describe('a description of an invented film', () => {
  it('may be empty: everything has a default', () => {
    const parsed = parseSpec({});
    expect(parsed.ok && parsed.value.fractures).toEqual([]);
    expect(parsed.ok && parsed.value.hand.side).toBe('right');
  });

  it.each([
    ['a misspelt field', { veiw: {} }, 'the whole spec'],
    ['a misspelt field deep inside', { film: { pitch: 0.1 } }, 'film'],
    [
      'an angle beyond the limit',
      { fractures: [{ ray: 'small', region: 'neck', apexDorsalDegrees: 120 }] },
      'fractures.0.apexDorsalDegrees',
    ],
    ['no region', { fractures: [{ ray: 'small' }] }, 'fractures.0.region'],
    ['a ray that does not exist', { fractures: [{ ray: 'pinky', region: 'neck' }] }, 'fractures.0.ray'],
    ['a film without pixels', { film: { columns: 0 } }, 'film.columns'],
    ['half a pixel', { film: { rows: 100.5 } }, 'film.rows'],
    ['text for a number', { exposure: { energyKev: '40' } }, 'exposure.energyKev'],
    ['an energy outside the tables', { exposure: { energyKev: 200 } }, 'exposure.energyKev'],
    ['no number', { view: { turnDegrees: Number.NaN } }, 'view.turnDegrees'],
    ['no object', 'lateral', 'the whole spec'],
  ])('names the field for %s', (_, request, field) => {
    expect(problemsOf(request)).toContain(field);
  });

  it('refuses to break one ray twice, and says so', () => {
    const fracture = { ray: 'ring', region: 'shaft' };
    const parsed = parseSpec({ fractures: [fracture, fracture] });
    expect(parsed.ok ? '' : specErrorSentence(parsed.error)).toMatch(
      /ring ray is broken twice; give each ray one fracture\. Correct it/,
    );
  });

  it('has ready-made descriptions that survive being written as JSON', () => {
    expect(DEFAULT_SPEC_NAMES).toContain('small-neck-lateral');
    for (const name of DEFAULT_SPEC_NAMES) {
      const spec = defaultSpec(name);
      const again = parseSpec(JSON.parse(JSON.stringify(spec)));
      expect(again).toEqual({ ok: true, value: spec });
    }
  });

  it('starts with a right small-finger neck, 45° apex dorsal, in the lateral', () => {
    const spec = defaultSpec('small-neck-lateral');
    expect(spec.hand.side).toBe('right');
    expect(spec.fractures[0]).toMatchObject({ ray: 'small', region: 'neck', apexDorsalDegrees: 45 });
    expect(spec.view.turnDegrees).toBeGreaterThan(80);
    expect(spec.view.turnDegrees).toBeLessThan(110);
  });
});
