import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { writeArchive } from '../../src/case/case-archive.ts';
import { writeCaseFile } from '../../src/case/case-file.ts';
import { type CaseRecord, caseId } from '../../src/case/document.ts';
import { freshState } from '../../src/case/history.ts';
import { read } from '../../src/cli/commands/read.ts';
import { serializeLimitSet } from '../../src/tolerance/limit-set-file.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { copySet } from '../../src/tolerance/local-protocol.ts';
import { AT, caseOf, film, free, injury, mark, settings } from '../case/samples.ts';
import { listen } from './said.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'raybend-'));
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
});

/** A shaft bent by atan(3/4) = 36.870°: 80 mm and 50 mm axes of free points, normal taken as zero. */
const BENT = [
  injury({ ray: 'ring', region: 'shaft' }),
  settings({ normal: 'zero', limitSetIds: ['common-practice-adult', 'house-rules'] }),
  film('film-1'),
  mark('film-1/proximal-axis', 'film-1', 'proximal-axis', free([1000, 2000], [1000, 1200])),
  mark('film-1/distal-axis', 'film-1', 'distal-axis', free([1000, 1100], [1300, 700])),
];

const caseFile = (name: string, records: readonly CaseRecord[]): string => {
  const path = join(folder, name);
  writeFileSync(path, writeCaseFile({ state: freshState(caseOf(...records)), films: [], unknownFields: {} }));
  return path;
};

const houseRules = (): string => {
  const path = join(folder, 'house.json');
  const [common] = SHIPPED_LIMIT_SETS;
  writeFileSync(path, serializeLimitSet(copySet(common!, { id: 'house-rules', title: 'House rules' })));
  return path;
};

describe('raybend read', () => {
  it('prints readings with intervals, outcomes and cautions', async () => {
    const { out, error } = listen();
    expect(await read.run([caseFile('bent.raybend.json', BENT), '--limits', houseRules()])).toBe(0);
    expect(error()).toBe('');
    const [said] = JSON.parse(out());
    const angle = said.readings.find((one: { quantity: string }) => one.quantity === 'angulation');
    expect(angle.value).toBeCloseTo(36.8699, 4);
    // Two free axes of 80 and 50 mm, 0.5 mm per coordinate: u = √(2·0.25/80² + 2·0.25/50²) rad = 0.95550°, k = 1.96.
    expect(angle.standardUncertainty).toBeCloseTo(0.9555, 3);
    expect(angle.interval.low).toBeCloseTo(36.8699 - 1.96 * 0.9555, 2);
    expect(angle.degreesOfFreedom).toBeNull();
    // limits.md: ring shaft 30°; 36.9 ± 1.9 lies past it.
    expect(said.outcomes).toMatchObject([
      { outcome: 'past the limit', limitSet: { id: 'common-practice-adult', local: false } },
      { outcome: 'past the limit', limitSet: { id: 'house-rules', title: 'House rules', local: true } },
    ]);
    expect(said.cautions.map(({ id }: { id: string }) => id)).toContain('knuckle-wound-not-checked');
    expect(said.limitSetsNotHere).toEqual([]);
  });

  it('names a limit set that is not here', async () => {
    const { out } = listen();
    expect(await read.run([caseFile('bent.raybend.json', BENT)])).toBe(0);
    expect(JSON.parse(out())[0].limitSetsNotHere).toEqual(['house-rules']);
  });

  it('reads every case of an archive, and names one in it that is damaged', async () => {
    const { out, error } = listen();
    const pieces: Uint8Array[] = [];
    const cases = ['one', 'two'].map((id) => ({
      state: freshState({ ...caseOf(...BENT), id: caseId(id) }),
      unknownFields: {},
    }));
    await writeArchive({ cases, at: AT, filmBytes: async () => null }, (piece) => pieces.push(piece));
    const whole = Buffer.concat(pieces);
    const path = join(folder, 'all.zip');
    writeFileSync(path, whole);
    expect(await read.run([path])).toBe(0);
    expect(JSON.parse(out()).map((one: { file: string; case: string }) => [one.file, one.case])).toEqual([
      [`${path}/cases/one.json`, 'one'],
      [`${path}/cases/two.json`, 'two'],
    ]);
    const entries = unzipSync(whole);
    const damaged = join(folder, 'damaged.zip');
    writeFileSync(damaged, zipSync({ ...entries, 'cases/two.json': strToU8('{') }));
    expect(await read.run([damaged])).toBe(1);
    expect(error()).toMatch(/^not-json: cases\/two\.json in .*damaged\.zip was not opened/);
    const other = join(folder, 'other.zip');
    writeFileSync(other, zipSync({ 'a.txt': strToU8('nothing') }));
    expect(await read.run([other])).toBe(1);
    expect(error()).toMatch(
      /not-an-archive: .*other\.zip was not opened: it is a ZIP file but holds no Raybend cases/,
    );
  });

  it('goes on after a file that is refused, and ends with its code', async () => {
    const { out, error } = listen();
    const broken = join(folder, 'broken.json');
    writeFileSync(broken, '{');
    const other = join(folder, 'other.json');
    writeFileSync(other, '{"format":"something-else"}');
    const good = caseFile('good.raybend.json', BENT);
    expect(await read.run([broken, other, good])).toBe(1);
    expect(JSON.parse(out())).toHaveLength(1);
    expect(error()).toMatch(/^not-json: .*broken\.json/);
    expect(error()).toMatch(/not-a-case-file: .*other\.json/);
    expect(await read.run([join(folder, 'none.json'), good])).toBe(3);
  });

  it('refuses a limit set with its reason, before any case is read', async () => {
    const { out, error } = listen();
    const set = join(folder, 'set.json');
    writeFileSync(set, '{"format":"raybend-limit-set","version":1}');
    expect(await read.run([caseFile('bent.raybend.json', BENT), '--limits', set])).toBe(1);
    expect(error()).toMatch(/^invalid: set\.json was not taken over/);
    expect(out()).toBe('');
  });

  it('says when it is called wrongly', async () => {
    listen();
    expect(await read.run([])).toBe(2);
    expect(await read.run(['--nonsense'])).toBe(2);
  });
});

describe('npm run raybend', () => {
  const raybend = (...args: readonly string[]) =>
    spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/raybend.ts', ...args], { encoding: 'utf8' });

  it('lists every command, and refuses one it does not know', () => {
    const help = raybend('help');
    expect(help.status).toBe(0);
    for (const command of ['read', 'agree', 'invent']) expect(help.stdout).toContain(`raybend ${command} `);
    // The second is a name that every object of the language has.
    for (const name of ['measure', 'constructor']) {
      const unknown = raybend(name);
      expect(unknown.status).toBe(2);
      expect(unknown.stderr).toContain(`unknown-command: There is no command “${name}”`);
    }
  });
});
