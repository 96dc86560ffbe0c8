import { expect, it, onTestFinished, vi } from 'vitest';
import { addSampleFilms, beginSample } from '../../src/app/sample.ts';
import { caseShown, sayOfFilm } from '../../src/app/shell.ts';
import { caseOf } from '../case/samples.ts';
import { said, shellWith } from './support.ts';

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
