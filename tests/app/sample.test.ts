import { expect, it } from 'vitest';
import { beginSample } from '../../src/app/sample.ts';
import { sayOfFilm } from '../../src/app/shell.ts';
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
