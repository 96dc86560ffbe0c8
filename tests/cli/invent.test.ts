import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { invent } from '../../src/cli/commands/invent.ts';
import { outputOf } from '../outside-tools.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'raybend-'));
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
});

const quietly = (): { said: () => string } => {
  const said: string[] = [];
  vi.spyOn(console, 'log').mockImplementation((line: string) => said.push(line));
  vi.spyOn(console, 'error').mockImplementation((line: string) => said.push(line));
  return { said: () => said.join('\n') };
};

describe('raybend invent', () => {
  it('writes a film, a picture and the truth', async () => {
    quietly();
    const spec = join(folder, 'exercise.json');
    writeFileSync(
      spec,
      JSON.stringify({
        hand: { side: 'left' },
        film: { columns: 120, rows: 160, pitchMm: 1.4, statedPlane: 'patient' },
        fractures: [{ ray: 'ring', region: 'shaft', apexDorsalDegrees: 25 }],
      }),
    );
    expect(await invent.run([spec, '--seed', '5', '--out', folder])).toBe(0);
    const truth = JSON.parse(readFileSync(join(folder, 'exercise.truth.json'), 'utf8'));
    expect(truth.fractures[0].apexDorsalDegrees).toBeCloseTo(25, 6);
    const dump = outputOf('dcmdump', [join(folder, 'exercise.dcm')]);
    expect(dump).toMatch(/\(0020,0062\) CS \[L\]/);
    // Corrected for magnification: both spacings stand there and differ (PS3.3 10.7.1.1).
    expect(dump).toMatch(/\(0018,1164\) DS \[1.4\\1.4\]/);
    expect(dump).toMatch(/\(0028,0a02\) CS \[GEOMETRY\]/);
    expect(dump).not.toMatch(/\(0028,0030\) DS \[1.4\\1.4\]/);
    expect(readFileSync(join(folder, 'exercise.png')).subarray(1, 4).toString()).toBe('PNG');
  });

  it('says what is wrong with a description, and with the call', async () => {
    const { said } = quietly();
    const spec = join(folder, 'wrong.json');
    writeFileSync(spec, '{"view":{"turn":90}}');
    expect(await invent.run([spec])).toBe(1);
    expect(said()).toMatch(/wrong\.json: .*view: .*turn/);
    writeFileSync(spec, '{');
    expect(await invent.run([spec])).toBe(1);
    expect(said()).toMatch(/cannot be read as JSON/);
    expect(await invent.run([])).toBe(2);
    expect(await invent.run([spec, '--seed', 'x'])).toBe(2);
    expect(await invent.run(['--help'])).toBe(2);
    expect(await invent.run([join(folder, 'absent.json')])).toBe(3);
    expect(said()).toMatch(/absent\.json could not be read/);
  });
  it.each([[''], [' '], ['0x10'], ['1e3'], ['2.5'], ['9007199254740993']])(
    'refuses the seed “%s” with a sentence, and writes nothing',
    async (seed) => {
      const { said } = quietly();
      const spec = join(folder, 'exercise.json');
      writeFileSync(spec, '{}');
      expect(await invent.run([spec, '--seed', seed, '--out', folder])).toBe(2);
      expect(said()).toBe(
        `usage: The seed “${seed}” is no whole number of at most 15 digits. Give one, as in --seed 7, or leave --seed out for the seed 1.`,
      );
      expect(readdirSync(folder)).toEqual(['exercise.json']);
    },
  );
});
