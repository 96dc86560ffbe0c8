import { assess } from '../../src/case/assess.ts';
import { caseFileContent } from '../../src/case/case-content.ts';
import { readCaseContent } from '../../src/case/case-file.ts';
import { recordId } from '../../src/case/document.ts';
import { freshState } from '../../src/case/history.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { caseOf, film, free, mark } from '../case/samples.ts';
import { race } from './harness/lines.ts';

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

let round = 0;
const nextMoved = () => {
  round += 1;
  const moved = { ...marks[4998]!, shape: free([300, 900 + (round % 7)], [340, 500]) };
  return { ...document, records: { ...document.records, [recordId(moved.id)]: moved } };
};

await race({
  against: 'JSON.parse of the same case',
  baseline: () => JSON.parse(text),
  runs: {
    'case of 5,000 marks read and validated': () => readCaseContent(JSON.parse(text)),
    'case of 5,000 marks assessed after one has moved': () => assess(nextMoved(), SHIPPED_LIMIT_SETS),
  },
  rounds: 15,
});
