import { describe, expect, it } from 'vitest';
import type { CaseDocument, CaseRecord, Provenance } from '../../src/case/document.ts';
import { noteText } from '../../src/record/note.ts';
import { knownReadings } from '../../src/record/readings.ts';
import { snapshotContent } from '../../src/record/snapshot/content.ts';
import { csvOf, tablesJson, tablesOf, writtenReadings } from '../../src/record/table.ts';
import { caseOf, succeeded } from '../case/samples.ts';
import { assessed, sampleCase } from './sample.ts';

/** The sample case as if its axes had come about so. */
function withAxes(proximal: Provenance, distal: Provenance): CaseDocument {
  const made = (record: CaseRecord): CaseRecord => {
    if (record.kind !== 'mark') return record;
    if (record.role === 'proximal-axis') return { ...record, provenance: proximal };
    if (record.role === 'distal-axis') return { ...record, provenance: distal };
    return record;
  };
  return caseOf(...Object.values(sampleCase().records).map(made));
}

async function records(document: CaseDocument) {
  const assessment = assessed(document);
  const angle = knownReadings(assessment).find(({ quantity }) => quantity === 'angulation')!;
  const tables = await tablesOf([{ document, assessment }], {
    hash: async () => new Uint8Array(32),
    softwareVersion: '0.1.0',
  });
  return {
    note: succeeded(noteText(document, assessment, '0.1.0')),
    snapshot: snapshotContent(document, assessment, angle.filmId)!
      .readings.map(({ note }) => note)
      .join(' | '),
    csv: csvOf(writtenReadings(tables)),
    json: tablesJson(tables),
    definition: angle.definition,
  };
}

describe('how an axis came about', () => {
  it('goes with the reading into note, snapshot, tables and the definition that report and sheet print', async () => {
    const { note, snapshot, csv, json, definition } = await records(
      withAxes('traced', 'traced-and-corrected'),
    );
    expect(note).toContain('axes by the canal, traced and the centre of the head, traced and corrected');
    expect(snapshot).toContain('proximal axis traced, distal axis traced and corrected');
    expect(csv).toMatch(/,traced,traced-and-corrected,/);
    expect(json).toContain('"proximal_provenance": "traced"');
    expect(json).toContain('"distal_provenance": "traced-and-corrected"');
    expect(definition).toContain('(the canal, traced)');
    expect(definition).toContain('(the centre of the head, traced and corrected)');
  });

  it('says placed in the tables and nothing in sentences where a hand did it', async () => {
    const { note, snapshot, csv, definition } = await records(withAxes('placed', 'placed'));
    for (const text of [note, snapshot, definition]) expect(text).not.toMatch(/traced/);
    expect(csv).toMatch(/,placed,placed,/);
  });

  it('says it once where both came about alike', async () => {
    const { snapshot } = await records(withAxes('traced', 'traced'));
    expect(snapshot).toContain('axes traced');
    expect(snapshot).not.toContain('proximal axis');
  });
});
