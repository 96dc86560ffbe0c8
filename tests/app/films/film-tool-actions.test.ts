import { describe, expect, it, vi } from 'vitest';
import { filmToolActions } from '../../../src/app/films/film-tool-actions.ts';
import { emptyCase } from '../../../src/case/apply.ts';
import { caseId } from '../../../src/case/document.ts';
import { pictureKey } from '../../../src/case/film-place.ts';
import { freshState } from '../../../src/case/history.ts';
import type { Film } from '../../../src/film/film.ts';
import { success } from '../../../src/geometry/result.ts';
import { caseOf, film } from '../../case/samples.ts';
import { said, shellWith } from '../support.ts';

const whole = film('film-1');
const half = { column: 0, row: 0, columns: 1000, rows: 2400 };

/** What a part of the film is decoded to, as far as its record needs it. */
const part = {
  columns: 1000,
  rows: 2400,
  spacing: whole.spacing,
  facts: { format: 'dicom', viewPosition: null, laterality: null, lossy: null, burnedIn: null },
} as unknown as Film;

function splitting(meanwhile: () => void) {
  const shell = shellWith(caseOf(whole), {
    keeper: { filmBytes: async () => new ArrayBuffer(8), keep: () => undefined },
    decoder: {
      decode: async () => {
        meanwhile();
        return success(part);
      },
    },
  });
  const place = { frame: 0, part: { kind: 'rectangle', ...half } } as const;
  // The small picture is there already: Node has no canvas to draw one on.
  const thumbnails = new Map([[pictureKey({ sha256: whole.sha256, place }), 'blob:part']]);
  shell.store.setState({ thumbnails });
  return shell;
}

describe('parts of a film', () => {
  it('take the place of the whole', async () => {
    const shell = splitting(() => undefined);
    filmToolActions(shell, whole.id).split([half]);
    await vi.waitFor(() => expect(shell.store.getState().chosenFilm).toBe('id-1'));
    const { records } = shell.store.getState().caseState.document;
    expect(records[whole.id]).toBeUndefined();
  });

  it('join no other case that was opened while they were being read', async () => {
    const other = freshState(emptyCase(caseId('case-2')));
    const shell = splitting(() => shell.store.setState({ caseState: other }));
    filmToolActions(shell, whole.id).split([half]);
    await vi.waitFor(() => expect(said(shell)).toHaveLength(1));
    expect(said(shell)[0]).toMatch(/^Another case was opened/);
    expect(shell.store.getState().caseState).toBe(other);
  });
});
