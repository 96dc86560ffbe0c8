import { createHmac } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Assessment } from '../../src/case/assessment.ts';
import {
  csvOf,
  type TabledCase,
  tablesJson,
  tablesOf,
  writtenComparisons,
  writtenReadings,
} from '../../src/record/table.ts';
import { COMPARISON_COLUMNS, READING_COLUMNS } from '../../src/record/table-columns.ts';
import { caseOf, film } from '../case/samples.ts';
import { itNeeds, outputOf } from '../outside-tools.ts';
import { expectNoIdentity } from './identities.ts';
import { assessed, sampleCase } from './sample.ts';

const facts = {
  hash: async (text: string) => createHmac('sha256', 'a secret').update(text).digest(),
  softwareVersion: '0.1.0',
};
const tabled = (change: (assessment: Assessment) => Assessment = (same) => same): TabledCase => {
  const document = sampleCase();
  return { document, assessment: change(assessed(document)) };
};
const tables = (...cases: TabledCase[]) => tablesOf(cases, facts);

/** How an independent reader takes the text apart: Python's csv module, which follows RFC 4180. */
const asRead = (csv: string): Record<string, string>[] =>
  JSON.parse(
    outputOf(
      '/usr/bin/python3',
      [
        '-c',
        'import csv, io, json, sys; t = sys.stdin.buffer.read().decode("utf-8"); print(json.dumps(list(csv.DictReader(io.StringIO(t, newline="")))))',
      ],
      csv,
    ),
  );

const itRead = itNeeds('/usr/bin/python3');

describe('the tables', () => {
  itRead('hold every reading with its numbers in full, as an independent reader finds them', async () => {
    const { assessment } = tabled();
    const rows = asRead(csvOf(writtenReadings(await tables(tabled()))));
    expect(rows).toHaveLength(assessment.readings.length);
    for (const reading of assessment.readings) {
      const row = rows.find(
        ({ quantity, film: number }) => quantity === reading.quantity && `film-${number}` === reading.filmId,
      );
      expect(row, reading.id).toBeDefined();
      if (reading.state === 'missing') {
        expect(row!.value).toBe('');
        expect(row!.missing_because).toBe(reading.lacks);
        continue;
      }
      expect(Number(row!.value)).toBe(reading.value);
      expect(Number(row!.lower_95)).toBe(reading.value - reading.expandedUncertainty);
      expect(Number(row!.standard_uncertainty)).toBe(reading.standardUncertainty);
      expect(row!.unit).toBe(reading.unit);
      expect(row!.definition).toBe(reading.definition);
    }
  });

  itRead('follow RFC 4180: CRLF, one header line, quotes doubled, as many cells in each line', async () => {
    const definition = 'A “quoted”, "doubled",\r\nbroken line';
    const spiked = tabled((assessment) => ({
      ...assessment,
      readings: assessment.readings.map((reading) => ({ ...reading, definition })),
    }));
    const csv = csvOf(writtenReadings(await tables(spiked)));
    expect(csv.endsWith('\r\n')).toBe(true);
    expect(csv.split('\r\n')[0]).toBe(READING_COLUMNS.map(({ name }) => name).join(','));
    const rows = asRead(csv);
    for (const row of rows) expect(Object.keys(row)).toHaveLength(READING_COLUMNS.length);
    expect(rows[0]!.definition).toBe(definition);
  });

  // OWASP, CSV Injection: a cell that begins so is run as a formula by a spreadsheet.
  itRead.each(['=1+1', '+1', '-1+1', '@SUM(A1)', '\t=1', '\r=1'])(
    'make the text %j harmless',
    async (text) => {
      const spiked = tabled((assessment) => ({
        ...assessment,
        readings: assessment.readings.map((reading) => ({ ...reading, definition: text })),
      }));
      expect(asRead(csvOf(writtenReadings(await tables(spiked))))[0]!.definition).toBe(`'${text}`);
    },
  );

  itRead('leave negative numbers numbers, and say infinity as R and pandas do', async () => {
    const spiked = tabled((assessment) => ({
      ...assessment,
      readings: assessment.readings.map((reading) => ({
        ...reading,
        value: -2.5,
        degreesOfFreedom: Number.POSITIVE_INFINITY,
      })),
    }));
    const [row] = asRead(csvOf(writtenReadings(await tables(spiked))));
    expect([row!.value, row!.degrees_of_freedom]).toEqual(['-2.5', 'Inf']);
  });

  itRead('hold one comparison for each reading and set', async () => {
    const { assessment } = tabled();
    const rows = asRead(csvOf(writtenComparisons(await tables(tabled()))));
    expect(rows).toHaveLength(assessment.comparisons.length);
    expect(rows.map(({ outcome }) => outcome)).toEqual(assessment.comparisons.map(({ outcome }) => outcome));
    expect(rows[0]).toMatchObject({ limit_set: 'common-practice-adult', band_low: '50', band_high: '60' });
  });

  it('give the same as JSON, with what each column means', async () => {
    const json = JSON.parse(tablesJson(await tables(tabled())));
    expect(json.columns.readings.map(({ name }: { name: string }) => name)).toEqual(
      READING_COLUMNS.map(({ name }) => name),
    );
    const { assessment } = tabled();
    expect(json.readings).toHaveLength(assessment.readings.length);
    expect(Object.keys(json.readings[0])).toEqual(READING_COLUMNS.map(({ name }) => name));
    expect(json.comparisons).toHaveLength(assessment.comparisons.length);
  });

  it('tell cases and films apart by keys that hold nothing of them', async () => {
    const other = { ...sampleCase(), id: 'case-2' } as TabledCase['document'];
    const { readings } = await tables(tabled(), { document: other, assessment: assessed(other) });
    expect(new Set(readings.map(({ caseKey }) => caseKey)).size).toBe(2);
    for (const { caseKey, filmKey } of readings) {
      expect(caseKey).toMatch(/^[0-9a-f]{16}$/);
      expect(filmKey).toMatch(/^[0-9a-f]{16}$/);
    }
    const apart = await tablesOf([tabled()], {
      ...facts,
      hash: async (text) => createHmac('sha256', 'another').update(text).digest(),
    });
    expect(apart.readings[0]!.caseKey).not.toBe(readings[0]!.caseKey);
  });

  it('name nobody, and no case', async () => {
    const made = await tables(tabled());
    for (const text of [csvOf(writtenReadings(made)), csvOf(writtenComparisons(made)), tablesJson(made)]) {
      expectNoIdentity(text);
      expect(text).not.toContain('Invented case');
      // The file hash of a film of the samples; anybody who has the film could look for it.
      expect(text).not.toContain('0'.repeat(64));
    }
  });

  itRead('are empty but for their headers where nothing is read', async () => {
    const document = caseOf(film('film-1'));
    const made = await tables({ document, assessment: assessed(document) });
    expect(asRead(csvOf(writtenReadings(made)))).toEqual([]);
    expect(csvOf(writtenReadings(made)).split('\r\n')).toHaveLength(2);
  });
});

describe('docs/data-dictionary.md', () => {
  const page = readFileSync('docs/data-dictionary.md', 'utf8');
  it('has every column with its unit and meaning, in order, and no other', () => {
    const linesOf = (heading: string) =>
      page
        .split(`## ${heading}\n`)[1]!
        .split('\n## ')[0]!
        .split('\n')
        .filter((line) => line.startsWith('| `'));
    const wanted = (columns: readonly { name: string; unit: string; meaning: string }[]) =>
      columns.map(({ name, unit, meaning }) => `| \`${name}\` | ${unit || '–'} | ${meaning} |`);
    expect(linesOf('Readings')).toEqual(wanted(READING_COLUMNS));
    expect(linesOf('Comparisons')).toEqual(wanted(COMPARISON_COLUMNS));
  });
});
