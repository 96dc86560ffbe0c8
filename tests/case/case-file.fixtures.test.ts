import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import { readCaseFile, writeCaseFile } from '../../src/case/case-file.ts';
import { recordId } from '../../src/case/document.ts';
import { injuryOf } from '../../src/case/fixed-records.ts';
import { act, redoName, undoName } from '../../src/case/history.ts';
import { CASE_FILE_VERSION } from '../../src/case/migrations/current.ts';
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

describe('case files of every version', () => {
  it('are there', () => {
    expect(files.length).toBeGreaterThan(0);
  });

  it.each(files)('%s is written back with all that was in it', async (name) => {
    const { text, file } = await open(name);
    // What a version adds says "not said"; nothing else may differ.
    expect(JSON.parse(writeCaseFile(file))).toMatchObject({
      ...JSON.parse(text),
      version: CASE_FILE_VERSION,
    });
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

  it('comes back with nothing said of what later versions ask, also in what can be undone', async () => {
    const { state } = (await open('v1/small-neck-two-hands.json')).file;
    expect(injuryOf(state.document).date).toBeNull();
    const films = Object.values(state.document.records).filter((record) => record.kind === 'film');
    expect(films.map((film) => film.moment)).toEqual([null, null, null]);
    const undone = succeeded(act(state, { kind: 'undo', at: AT }));
    expect(succeeded(act(undone, { kind: 'redo', at: AT })).document).toEqual(state.document);
  });

  it('comes back with the last action undone', async () => {
    const { state } = (await open('v1/small-neck-two-hands.json')).file;
    expect(undoName(state.history)).toBe('Undo correct distal axis');
    expect(redoName(state.history)).toBe('Redo set the pattern');
    const redone = succeeded(act(state, { kind: 'redo', at: AT }));
    expect(injuryOf(redone.document).pattern).toBe('oblique');
  });
});

describe('v2/ring-shaft-over-time.json', () => {
  it('gives the angles it was drawn with', async () => {
    const { file } = await open('v2/ring-shaft-over-time.json');
    const { readings, course } = assess(file.state.document, SHIPPED_LIMIT_SETS);
    const value = (id: string) => {
      const reading = readings.find((one) => one.id === id);
      return reading?.state === 'known' ? reading.value : reading?.lacks;
    };
    // Both proximal axes are upright; the distal ones go 300 columns aside in 400 rows, then 100 in 240.
    expect(value('film-1/angulation')).toBeCloseTo((Math.atan(3 / 4) * 180) / Math.PI, 4);
    expect(value('film-2/angulation')).toBeCloseTo((Math.atan(5 / 12) * 180) / Math.PI, 4);
    // From base to head 300 columns and 1100 rows of 0.1 mm, divided by the middle of what a hand 10 to 30 mm
    // above the detector and a tube 1 m away make of it (docs/measurements/length.md).
    const magnification = (1000 / 990 + 1000 / 970) / 2;
    expect(value('film-1/length')).toBeCloseTo(Math.hypot(30, 110) / magnification, 4);
    // Before and after the reduction are one series.
    expect(course[0]?.points.map(({ film }) => film.id)).toEqual(['film-1', 'film-2']);
  });

  it('comes back with every film as it was: its moment, part, scale, slant and turn', async () => {
    const { state } = (await open('v2/ring-shaft-over-time.json')).file;
    const { records } = state.document;
    expect(records[recordId('film-1')]).toMatchObject({
      moment: 'before-reduction',
      place: { frame: 0, part: { kind: 'rectangle', column: 100, row: 50, columns: 2000, rows: 2400 } },
    });
    expect(records[recordId('film-2')]).toMatchObject({
      moment: 'after-reduction',
      day: 1,
      scale: { from: 'object', sizeMm: 24, typed: '24 mm' },
      slant: { upToDegrees: 0.5 },
    });
    expect(records[recordId('film-3')]).toMatchObject({ turnDegrees: 50 });
    const redone = succeeded(act(state, { kind: 'redo', at: AT }));
    expect(redone.document.records[recordId('film-2')]).toMatchObject({ day: 2 });
  });
});

describe('v3/two-fists.json', () => {
  it('gives the directions and the cover it was drawn with', async () => {
    const { document } = (await open('v3/two-fists.json')).file.state;
    const { readings } = assess(document, SHIPPED_LIMIT_SETS);
    const value = (id: string) => {
      const reading = readings.find((one) => one.id === id);
      return reading?.state === 'known' ? reading.value : reading?.lacks;
    };
    const [here, there] = [Math.atan2(60, 80), Math.atan2(50, 120)].map((angle) => (angle * 180) / Math.PI);
    expect(value('film-1/nail-direction')).toBeCloseTo(here!, 4);
    // The other hand is the mirror image: what leans the other way leans the same way.
    expect(value('film-1/nail-direction-difference')).toBeCloseTo(here! - there!, 4);
    expect(value('film-1/nail-overlap')).toBeCloseTo(25, 4);
    expect(document.records[recordId('film-3')]).toMatchObject({ shows: 'bones', ray: 'small' });
  });
});

describe('what version 3 asks of pictures', () => {
  it.each(['v1/small-neck-two-hands.json', 'v2/ring-shaft-over-time.json'])(
    '%s comes back with bones on every film, also in what can be undone',
    async (name) => {
      const { document, history } = (await open(name)).file.state;
      const steps = history.transactions.flatMap((transaction) => transaction.steps);
      const films = [
        ...Object.values(document.records),
        ...steps.flatMap(({ before, after }) => [before, after]),
      ].filter((record) => record?.kind === 'film');
      expect(films.length).toBeGreaterThan(2);
      expect(new Set(films.map(({ shows }) => shows))).toEqual(new Set(['bones']));
    },
  );
});
