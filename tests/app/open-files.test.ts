import { expect, it } from 'vitest';
import { inTurn } from '../../src/app/in-turn.ts';
import { openFiles } from '../../src/app/open-files.ts';
import { caseId } from '../../src/case/document.ts';
import { markedFilms } from '../../src/case/film-marks.ts';
import { freshState } from '../../src/case/history.ts';
import { success } from '../../src/geometry/result.ts';
import { caseOf } from '../case/samples.ts';
import { dicomFile, filmElements } from '../film/dicom-file.ts';
import { openFilm } from '../film/open.ts';
import { withoutCanvas } from './no-canvas.ts';
import { said, shellWith } from './support.ts';

withoutCanvas();
const bytes = dicomFile(filmElements());

it('files that are dropped while a case comes onto the screen are for that case', async () => {
  const shell = shellWith(caseOf(), {
    keeper: { keep: () => undefined, keepFilm: async () => undefined, list: async () => [] },
    decoder: {
      lookInside: async (file: object) => success({ films: [file], leftOut: [] }),
      patientKey: async () => success(null),
      decode: async () => success(await openFilm(bytes)),
    },
  });
  let ready: () => void = () => undefined;
  // As at the first start, where the sample case takes the place of an empty one.
  const coming = inTurn(shell, async () => {
    await new Promise<void>((done) => {
      ready = done;
    });
    shell.store.setState({ caseState: freshState({ ...caseOf(), id: caseId('the-sample') }) });
  });
  const opened = openFiles(shell, [new File([bytes.slice()], 'one.dcm')], { hand: 'injured', day: null });
  await new Promise((done) => setTimeout(done));
  ready();
  await coming;
  await opened;
  expect(said(shell).filter((text) => text.includes('neither'))).toEqual([]);
  expect(markedFilms(shell.store.getState().caseState.document)).toHaveLength(1);
});
