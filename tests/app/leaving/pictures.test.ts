import { expect, it } from 'vitest';
import { textOn } from '../../../src/app/leaving/pictures.ts';
import { recordId } from '../../../src/case/document.ts';
import { caseOf, failed, film } from '../../case/samples.ts';
import { shellWith } from '../support.ts';

it('does not look through a film without pixels, and does not say that it found nothing', async () => {
  const shell = shellWith(caseOf(film('film-1')), { keeper: { filmBytes: async () => null } });
  expect(failed(await textOn(shell, recordId('film-1')))).toEqual({ kind: 'no-pixels' });
});
