import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CaseFile, caseFileErrorSentence } from '../../src/case/case-content.ts';
import { readCaseFile, writeCaseFile } from '../../src/case/case-file.ts';
import type { MarkRecord } from '../../src/case/document.ts';
import { act, type CaseState, freshState } from '../../src/case/history.ts';
import { arbitraryEdits, stateAfter } from './arbitrary.ts';
import { caseOf, failed, film, free, injury, mark, putting, succeeded } from './samples.ts';

const sha256Of = async (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
const read = (text: string) => readCaseFile(text, sha256Of);
const fileOf = (state: CaseState, rest: Partial<CaseFile> = {}): CaseFile => ({
  state,
  films: [],
  unknownFields: {},
  ...rest,
});
const axis = mark('mark-1', 'film-a', 'proximal-axis', free([10, 20], [10, 400]));
const sample = freshState(caseOf(injury(), film('film-a'), axis));

// biome-ignore lint/suspicious/noExplicitAny: a file to be broken on purpose has no type
type Loose = any;

/** The sample's file with one place of it changed. */
const altered = (change: (file: Loose) => void): string => {
  const file = JSON.parse(writeCaseFile(fileOf(sample)));
  change(file);
  return JSON.stringify(file);
};

describe('case files', () => {
  it('give back any case with its history', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryEdits, async (edits) => {
        const state = stateAfter(edits);
        const text = writeCaseFile(fileOf(state));
        const back = succeeded(await read(text));
        expect(back.state).toEqual(JSON.parse(JSON.stringify(state)));
        expect(writeCaseFile(back)).toBe(text);
      }),
      { numRuns: 60 },
    );
  });

  it('carry the bytes of films of any length', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ minLength: 1, maxLength: 100 }), async (start) => {
        // Longer than a piece of the base64 writer, and no multiple of it.
        const bytes = new Uint8Array(30_000 + start.length);
        bytes.set(start);
        const films = [{ sha256: await sha256Of(bytes), bytes }];
        const back = succeeded(await read(writeCaseFile(fileOf(sample, { films }))));
        expect(back.films).toEqual(films);
      }),
      { numRuns: 5 },
    );
  });

  it('encode bytes as in RFC 4648', async () => {
    // RFC 4648, section 10: BASE64("foobar") = "Zm9vYmFy", BASE64("fooba") = "Zm9vYmE=".
    for (const [plain, encoded] of [
      ['foobar', 'Zm9vYmFy'],
      ['fooba', 'Zm9vYmE='],
    ] as const) {
      const bytes = new Uint8Array(Buffer.from(plain));
      const text = writeCaseFile(fileOf(sample, { films: [{ sha256: await sha256Of(bytes), bytes }] }));
      expect(JSON.parse(text).films[0].bytesBase64).toBe(encoded);
    }
  });

  it('keep fields of a later version wherever they stand', async () => {
    const text = altered((file) => {
      Object.assign(file, { colour: 'sepia' });
      Object.assign(file.case, { weather: 'rain' });
      Object.assign(file.case.records['mark-1'], { thickness: 3 });
      Object.assign(file.case.records['mark-1'].shape.from, { depth: 1 });
      Object.assign(file.case.records['film-a'].spacing, { temperature: 20 });
    });
    const back = succeeded(await read(text));
    expect(JSON.parse(writeCaseFile(back))).toEqual(JSON.parse(text));
    const moved = { ...(back.state.document.records[axis.id] as MarkRecord), provenance: 'placed' as const };
    const next = succeeded(
      act(back.state, {
        kind: 'do',
        transaction: putting(back.state.document, moved, injury({ hand: 'left' })),
      }),
    );
    const written = JSON.parse(writeCaseFile({ ...back, state: next }));
    expect(written).toMatchObject({ colour: 'sepia', case: { weather: 'rain' } });
    expect(written.case.records['mark-1']).toMatchObject({ thickness: 3 });
  });
});

describe('a case file is refused, by name,', () => {
  it('when it is no JSON', async () => {
    const whole = writeCaseFile(fileOf(sample));
    for (const text of ['', '{', 'DICM', whole.slice(0, -5)]) {
      expect(failed(await read(text)).kind).toBe('not-json');
    }
  });

  it('when it is not ours', async () => {
    for (const text of ['null', '3', '[]', '{}', '{"format":"raybend-limit-set","version":1}']) {
      expect(failed(await read(text)).kind).toBe('not-a-case-file');
    }
    expect(failed(await read('{"format":"raybend-case","version":"one"}')).kind).toBe('not-a-case-file');
  });

  it('when it is newer, before anything else in it is looked at', async () => {
    const error = failed(await read('{"format":"raybend-case","version":4,"case":"in a new shape"}'));
    expect(error).toEqual({ kind: 'version-too-new', version: 4, known: 3 });
    expect(caseFileErrorSentence(error, 'ring.json')).toBe(
      'ring.json was not opened: it was written by a newer Raybend (file version 4; this one reads up to 3). Reload the page to get the newer Raybend, then open it again.',
    );
  });

  it.each([
    ['case', (file: Loose) => delete file.case],
    ['case.records.injury', (file: Loose) => delete file.case.records.injury],
    [
      'case.records.mark-1.shape.from.column',
      (file: Loose) => (file.case.records['mark-1'].shape.from.column = '10'),
    ],
    ['case.records.mark-1.role', (file: Loose) => (file.case.records['mark-1'].role = 'ulna')],
    [
      'case.records.film-a.spacing.rowSpacingMm',
      (file: Loose) => (file.case.records['film-a'].spacing.rowSpacingMm = 0),
    ],
    ['case.records.film-a.sha256', (file: Loose) => (file.case.records['film-a'].sha256 = 'ABC')],
    ['case.records.mark-1', (file: Loose) => (file.case.records['mark-1'].filmId = 'film-z')],
    ['case.records.mark-1', (file: Loose) => (file.case.records['mark-1'].id = 'mark-2')],
    ['history.position', (file: Loose) => (file.history = { transactions: [], position: 1 })],
  ])('when %s is wrong, saying where', async (path, change) => {
    const error = failed(await read(altered(change)));
    expect(error).toMatchObject({ kind: 'invalid', path });
    expect(caseFileErrorSentence(error, 'a.json')).toMatch(
      /^a\.json was not opened: it is not valid at \S+ \(.+\)/,
    );
    expect(caseFileErrorSentence(error, 'a.json')).toContain(path);
  });

  it('when its history does not lead to the case', async () => {
    const state = succeeded(
      act(sample, {
        kind: 'do',
        transaction: putting(sample.document, { ...axis, shape: free([1, 2], [3, 4]) }),
      }),
    );
    const file = JSON.parse(writeCaseFile(fileOf(state)));
    file.case.records['mark-1'].shape.from.row = 7;
    expect(failed(await read(JSON.stringify(file)))).toMatchObject({
      kind: 'invalid',
      path: 'history.transactions.0',
    });
  });

  it('when a film in it is another one', async () => {
    const bytes = new Uint8Array([1, 2, 3]);
    const error = failed(
      await read(writeCaseFile(fileOf(sample, { films: [{ sha256: 'f'.repeat(64), bytes }] }))),
    );
    expect(error).toEqual({
      kind: 'film-mismatch',
      sha256: 'f'.repeat(64),
      // SHA-256 of the bytes 1, 2, 3, from Python: hashlib.sha256(bytes([1, 2, 3])).hexdigest()
      found: '039058c6f2c0cb492c533b0a4d14ef77cc0f78abccced5287d84a1a2011cfb81',
    });
  });

  it('but not for being large: 5,000 marks', async () => {
    const marks = Array.from({ length: 5000 }, (_, index) =>
      mark(`mark-${index}`, 'film-a', 'length', free([index, 0], [index, 400])),
    );
    const state = freshState(caseOf(injury(), film('film-a'), ...marks));
    const back = succeeded(await read(writeCaseFile(fileOf(state))));
    expect(Object.keys(back.state.document.records)).toHaveLength(3 + 1 + 5000);
  });
});
