import { createHash } from 'node:crypto';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { archiveErrorSentence, damagedCaseSentence } from '../../case/archive-format.ts';
import { assess } from '../../case/assess.ts';
import type { Assessment } from '../../case/assessment.ts';
import { looksLikeZip, readArchive } from '../../case/case-archive.ts';
import { caseFileErrorSentence } from '../../case/case-content.ts';
import { readCaseContent } from '../../case/case-file.ts';
import type { CaseDocument } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import type { Reading } from '../../case/reading.ts';
import { filmNames } from '../../case/readings/names.ts';
import type { LimitSet } from '../../tolerance/limit-set.ts';
import { parseLimitSet } from '../../tolerance/limit-set-file.ts';
import { SHIPPED_LIMIT_SETS } from '../../tolerance/limit-sets.ts';
import { type Command, complain, EXIT } from '../command.ts';
import { bytesOf, textOf } from '../files.ts';

const USAGE = 'read CASE… [--limits FILE.json]…';

/** Readings with their intervals, outcomes and cautions of case files, as JSON. */
export const read: Command = {
  usage: USAGE,
  about:
    'Readings with their intervals, outcomes against the limits and cautions of case files, and of every case of an archive (ZIP). Local limit sets come with --limits.',
  async run(args) {
    const { values, positionals } = parsed(args);
    if (positionals.length === 0) {
      complain('usage', `Give one case file or more: raybend ${USAGE}`);
      return EXIT.usage;
    }
    const local = await localSets(values.limits ?? []);
    if (typeof local === 'number') return local;
    const limitSets = [...SHIPPED_LIMIT_SETS, ...local];
    const cases: object[] = [];
    let worst: number = EXIT.done;
    for (const path of positionals) {
      const { documents, code } = await casesIn(path);
      worst = Math.max(worst, code);
      for (const { file, document } of documents)
        cases.push(reported(file, document, assess(document, limitSets)));
    }
    console.log(JSON.stringify(cases, null, 2));
    return worst;
  },
};

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { limits: { type: 'string', multiple: true } },
    });
  } catch {
    return { values: { limits: [] }, positionals: [] };
  }
}

/** The sets of these files, or the exit code of the first that is refused. */
async function localSets(paths: readonly string[]): Promise<readonly LimitSet[] | number> {
  const sets: LimitSet[] = [];
  for (const path of paths) {
    const text = await textOf(path);
    if (!text.ok) {
      complain(text.error.kind, text.error.message);
      return EXIT.unreadable;
    }
    const set = parseLimitSet(text.value, basename(path));
    if (!set.ok) {
      complain(set.error.kind, set.error.message);
      return EXIT.refused;
    }
    sets.push(set.value);
  }
  return sets;
}

/** What a file holds, and the exit code it asks for; what could not be read was complained of. */
interface Found {
  readonly documents: readonly { readonly file: string; readonly document: CaseDocument }[];
  readonly code: number;
}

async function casesIn(path: string): Promise<Found> {
  const bytes = await bytesOf(path);
  if (!bytes.ok) {
    complain(bytes.error.kind, bytes.error.message);
    return { documents: [], code: EXIT.unreadable };
  }
  return looksLikeZip(bytes.value)
    ? casesOfArchive(path, bytes.value)
    : caseOfFile(path, new TextDecoder().decode(bytes.value));
}

async function casesOfArchive(path: string, bytes: Uint8Array<ArrayBuffer>): Promise<Found> {
  const archive = await readArchive(bytes, sha256Of);
  if (!archive.ok) {
    complain(archive.error.kind, archiveErrorSentence(archive.error, path));
    return { documents: [], code: EXIT.refused };
  }
  const { cases, damaged } = archive.value;
  for (const one of damaged) complain(one.error.kind, damagedCaseSentence(one, path));
  return {
    documents: cases.map(({ entry, file }) => ({
      file: `${path}/${entry}`,
      document: file.state.document,
    })),
    code: damaged.length === 0 ? EXIT.done : EXIT.refused,
  };
}

const sha256Of = async (bytes: Uint8Array): Promise<string> =>
  createHash('sha256').update(bytes).digest('hex');

function caseOfFile(path: string, text: string): Found {
  let content: unknown;
  try {
    content = JSON.parse(text);
  } catch (problem) {
    const detail = problem instanceof Error ? problem.message : String(problem);
    complain('not-json', caseFileErrorSentence({ kind: 'not-json', detail }, path));
    return { documents: [], code: EXIT.refused };
  }
  const file = readCaseContent(content);
  if (!file.ok) {
    complain(file.error.kind, caseFileErrorSentence(file.error, path));
    return { documents: [], code: EXIT.refused };
  }
  return { documents: [{ file: path, document: file.value.state.document }], code: EXIT.done };
}

function reported(path: string, document: CaseDocument, assessment: Assessment): object {
  const { label, hand, ray, region, pattern, ageGroup } = injuryOf(document);
  const names = filmNames(markedFilms(document).map(({ film }) => film));
  return {
    file: path,
    case: document.id,
    injury: { label, hand, ray, region, pattern, ageGroup },
    measurementVersion: assessment.measurementVersion,
    readings: assessment.readings.map((reading) => readingLine(reading, names.get(reading.filmId) ?? '')),
    outcomes: assessment.comparisons.map(({ limitSet, row, ...comparison }) => ({
      ...comparison,
      limitSet: {
        id: limitSet.id,
        title: limitSet.title,
        revision: limitSet.revision,
        local: limitSet.local,
        source: limitSet.source.citation,
      },
      limit: row === null ? null : { band: row.band, unit: row.unit, comparison: row.comparison },
    })),
    limitSetsNotHere: assessment.missingLimitSetIds,
    cautions: assessment.cautions,
  };
}

/** A reading as it is written out; null stands for infinitely many degrees of freedom. */
function readingLine(reading: Reading, film: string): object {
  if (reading.state === 'missing') return { ...reading, film };
  const { value, expandedUncertainty, degreesOfFreedom } = reading;
  return {
    ...reading,
    film,
    interval: { low: value - expandedUncertainty, high: value + expandedUncertainty, level: 0.95 },
    degreesOfFreedom: Number.isFinite(degreesOfFreedom) ? degreesOfFreedom : null,
  };
}
