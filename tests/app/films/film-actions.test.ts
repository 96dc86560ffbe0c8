import { expect, it } from 'vitest';
import { removeFilm } from '../../../src/app/films/film-actions.ts';
import { beginRepeats } from '../../../src/app/repeats/repeats.ts';
import { recordId } from '../../../src/case/document.ts';
import { caseOf, film } from '../../case/samples.ts';
import { shellWith } from '../support.ts';

it.each([
  ['the only film', [], null],
  ['one of two films', [film('film-2')], 'film-2'],
] as const)('repeats end with their film: %s', (_, others, next) => {
  const shell = shellWith(caseOf(film('film-1'), ...others), {
    keeper: { keep: () => undefined, filmBytes: async () => null },
  });
  shell.store.setState({ chosenFilm: recordId('film-1') });
  beginRepeats(shell);
  expect(shell.store.getState().repeats?.filmId).toBe('film-1');
  removeFilm(shell, recordId('film-1'));
  const { chosenFilm, task, repeats } = shell.store.getState();
  expect({ chosenFilm, task, repeats }).toEqual({ chosenFilm: next, task: null, repeats: null });
});
