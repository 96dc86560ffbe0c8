import { bench, describe } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import { caseFileContent } from '../../src/case/case-content.ts';
import { readCaseContent } from '../../src/case/case-file.ts';
import { recordId } from '../../src/case/document.ts';
import { freshState } from '../../src/case/history.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { caseOf, film, free, mark } from '../case/samples.ts';

/** A case of 50 films and 5,000 marks; docs/performance.md has the time in a browser. */
const films = Array.from({ length: 50 }, (_, index) => film(`film-${index}`, { day: index }));
const marks = Array.from({ length: 5000 }, (_, index) =>
  mark(
    `mark-${index}`,
    `film-${index % 50}`,
    index % 2 === 0 ? 'proximal-axis' : 'distal-axis',
    free([300, 900], [320 + (index % 70), 500]),
  ),
);
const document = caseOf(...films, ...marks);
const content = caseFileContent(freshState(document), {});
const text = JSON.stringify(content);

describe('a case of 50 films and 5,000 marks', () => {
  bench('baseline: JSON.parse of the same case', () => {
    JSON.parse(text);
  });

  bench('read and validated', () => {
    readCaseContent(JSON.parse(text));
  });

  let round = 0;
  bench('assessed after one mark has moved', () => {
    round += 1;
    const moved = { ...marks[4998]!, shape: free([300, 900 + (round % 7)], [340, 500]) };
    assess(
      { ...document, records: { ...document.records, [recordId(moved.id)]: moved } },
      SHIPPED_LIMIT_SETS,
    );
  });
});
