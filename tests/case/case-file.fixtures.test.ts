import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import { readCaseFile, writeCaseFile } from '../../src/case/case-file.ts';
import { injuryOf } from '../../src/case/fixed-records.ts';
import { act, redoName, undoName } from '../../src/case/history.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { AT, succeeded } from './samples.ts';

const FOLDER = 'tests/case-files';
const files = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.json'),
);
const open = async (name: string) => {
  const text = readFileSync(`${FOLDER}/${name}`, 'utf8');
  // None of the fixtures carries films, so no hash is asked for.
  return { text, file: succeeded(await readCaseFile(text, () => Promise.reject(new Error('no films')))) };
};

describe('case files of earlier versions', () => {
  it('are there', () => {
    expect(files.length).toBeGreaterThan(0);
  });

  it.each(files)('%s is written back with all that was in it', async (name) => {
    const { text, file } = await open(name);
    expect(JSON.parse(writeCaseFile(file))).toEqual(JSON.parse(text));
  });
});

describe('v1/small-neck-two-hands.json', () => {
  it('gives the angles it was drawn with', async () => {
    const { file } = await open('v1/small-neck-two-hands.json');
    const { readings, comparisons } = assess(file.state.document, SHIPPED_LIMIT_SETS);
    const value = (id: string) => {
      const reading = readings.find((one) => one.id === id);
      return reading?.state === 'known' ? reading.value : reading?.lacks;
    };
    // The canal is upright; the head lies 150 columns aside of and 200 rows above the broken end: atan(3/4).
    expect(value('film-1/angulation')).toBeCloseTo(36.8699, 4);
    // On the other hand 50 columns and 250 rows: atan(1/5).
    expect(value('film-1/normal')).toBeCloseTo(11.3099, 4);
    expect(value('film-1/deformity')).toBeCloseTo(25.56, 4);
    // Common practice holds the deformity against 50–60°, and 25.6° lies far below.
    expect(comparisons.find(({ limitSet }) => limitSet.id === 'common-practice-adult')?.outcome).toBe(
      'inside the limit',
    );
  });

  it('comes back with the last action undone', async () => {
    const { state } = (await open('v1/small-neck-two-hands.json')).file;
    expect(undoName(state.history)).toBe('Undo correct distal axis');
    expect(redoName(state.history)).toBe('Redo set the pattern');
    const redone = succeeded(act(state, { kind: 'redo', at: AT }));
    expect(injuryOf(redone.document).pattern).toBe('oblique');
  });
});
