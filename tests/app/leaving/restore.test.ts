import { describe, expect, it } from 'vitest';
import { restoreMarks } from '../../../src/app/leaving/restore.ts';
import { caseShown, type Shell } from '../../../src/app/shell.ts';
import { emptyCase } from '../../../src/case/apply.ts';
import { caseId } from '../../../src/case/document.ts';
import { markedFilms } from '../../../src/case/film-marks.ts';
import { freshState } from '../../../src/case/history.ts';
import { writeDicom } from '../../../src/record/dicom/dicom-write.ts';
import { srDataset } from '../../../src/record/dicom/sr.ts';
import { caseOf, film, succeeded } from '../../case/samples.ts';
import { reportInput, sourceBytes } from '../../record/sample.ts';
import { said, shellWith } from '../support.ts';

const report = succeeded(writeDicom(succeeded(srDataset(reportInput()))));

/** The first film of the sample without its marks; `onRead` runs while its file is read. */
const unmarked = (onRead: (shell: Shell) => void): Shell => {
  const shell: Shell = shellWith(caseOf(film('film-1', { columns: 400, rows: 500 })), {
    keeper: {
      keep: () => undefined,
      filmBytes: async () => {
        onRead(shell);
        return sourceBytes('film-1').slice().buffer;
      },
    },
    decoder: { decode: () => new Promise(() => undefined) },
  });
  return shell;
};

const marksIn = (shell: Shell): readonly string[] =>
  markedFilms(shell.store.getState().caseState.document).flatMap(({ marks }) => Object.keys(marks));

describe('marks of a report that is dropped', () => {
  it('come back to the film they were placed on', async () => {
    const shell = unmarked(() => undefined);
    await restoreMarks(shell, 'report.dcm', report, caseShown(shell));
    expect(marksIn(shell)).toEqual(
      expect.arrayContaining(['proximal-axis', 'distal-axis', 'dorsal-side', 'length', 'fracture-level']),
    );
  });

  it.each([
    ['as empty', () => emptyCase(caseId('case-2'))],
    [
      'on the same film',
      () => ({ ...caseOf(film('film-1', { columns: 400, rows: 500 })), id: caseId('case-2') }),
    ],
  ])('join no other case that is opened meanwhile, %s', async (_, other) => {
    const shell = unmarked(({ store }) => store.setState({ caseState: freshState(other()) }));
    await restoreMarks(shell, 'report.dcm', report, caseShown(shell));
    expect(caseShown(shell)).toBe('case-2');
    expect(marksIn(shell)).toEqual([]);
    expect(said(shell)).toEqual([
      'Another case was opened while “report.dcm” was being read, so its marks were put on no film. Drop it again over its case.',
    ]);
  });
});
