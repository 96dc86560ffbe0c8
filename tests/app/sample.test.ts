import { expect, it, onTestFinished, vi } from 'vitest';
import { addSampleFilms, beginSample } from '../../src/app/sample.ts';
import { caseShown, sayOfFilm } from '../../src/app/shell.ts';
import { recordId } from '../../src/case/document.ts';
import { success } from '../../src/geometry/result.ts';
import { caseOf, film } from '../case/samples.ts';
import { dicomFile, filmElements } from '../film/dicom-file.ts';
import { openFilm } from '../film/open.ts';
import { withoutCanvas } from './no-canvas.ts';
import { said, shellWith } from './support.ts';

withoutCanvas();

it('the sample case leaves no sentence about a film of the case before it', async () => {
  const shell = shellWith(caseOf(), {
    keeper: { begin: async () => undefined, keep: () => undefined },
  });
  sayOfFilm(shell, 'A film of the case before.');
  await beginSample(shell);
  expect(said(shell)).toEqual([]);
});

it('a page of the server in place of a sample film is no film, and is said', async () => {
  vi.stubGlobal('fetch', async () => new Response('<h1>Not found</h1>', { status: 404 }));
  onTestFinished(() => void vi.unstubAllGlobals());
  const decode = vi.fn();
  const shell = shellWith(caseOf(), { decoder: { decode } });
  await addSampleFilms(shell, caseShown(shell));
  expect(decode).not.toHaveBeenCalled();
  expect(said(shell)).toEqual([
    'The sample film could not be read (the server answered 404), so it was not added. Open it again.',
  ]);
});

it.each([
  ['shows its first film', false],
  ['leaves a film that somebody opens meanwhile on the plate', true],
])('the sample case %s', async (_, opensOne) => {
  let files = 0;
  vi.stubGlobal('fetch', async () => {
    files += 1;
    return new Response(new Uint8Array([files]));
  });
  onTestFinished(() => void vi.unstubAllGlobals());
  const picture = await openFilm(dicomFile(filmElements()));
  const shell = shellWith(caseOf(film('mine')), {
    keeper: {
      keep: () => undefined,
      keepFilm: async () => undefined,
      list: async () => [],
      filmBytes: async () => null,
    },
    decoder: {
      decode: async () => {
        if (opensOne && files === 2) shell.store.setState({ chosenFilm: recordId('mine') });
        return success(picture);
      },
    },
  });
  await addSampleFilms(shell, caseShown(shell));
  const { caseState, chosenFilm } = shell.store.getState();
  const films = Object.keys(caseState.document.records).filter((id) => /^id-/.test(id));
  expect(films).toHaveLength(4);
  expect(chosenFilm).toBe(opensOne ? 'mine' : films[0]);
});
