import { act, createElement, Suspense } from 'react';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import type { FilmRecord } from '../../../src/case/document.ts';
import type { BenchActions } from '../../../src/ui/actions.ts';
import type { FilmToolActions, FilmToolsState } from '../../../src/ui/film-tools/film-tools.ts';
import { PartLines } from '../../../src/ui/film-tools/PartLines.tsx';
import { mounted } from '../mounted.ts';

const page = mounted();

// Served beforehand, which takes long on a loaded machine; a sheet is still waited for when it is first wanted.
beforeAll(
  () =>
    Promise.all([
      import('../../../src/ui/film-tools/SplitSheet.tsx'),
      import('../../../src/ui/film-tools/StraightenSheet.tsx'),
    ]),
  60_000,
);

/** As much of a picture's record as these lines read. */
const PICTURE = {
  kind: 'film',
  id: 'film-1',
  format: 'png',
  spacing: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
} as unknown as FilmRecord;

const TOOLS: FilmToolsState = {
  injuredHand: null,
  object: null,
  furtherObject: null,
  placing: null,
  statedView: null,
  orientation: null,
  frames: 1,
  hasMarks: false,
  actions: { still: () => Promise.resolve(null) } as unknown as FilmToolActions,
};

/** Drawn in place of the form when something in it is waited for. */
const formGone = vi.fn(() => null);

describe('the sheets for parts of a picture', () => {
  it.each(['Split', 'Straighten'])(
    'leave the form in place while that of “%s” is fetched, and give the focus back to its button',
    async (name) => {
      formGone.mockClear();
      await page.showSettled(
        <Suspense fallback={createElement(formGone)}>
          <PartLines film={PICTURE} tools={TOOLS} actions={{} as BenchActions} />
        </Suspense>,
      );
      act(() => page.button(name).focus());
      await act(async () => page.button(name).click());
      await vi.waitFor(
        async () => {
          await act(async () => undefined);
          expect(page.host.querySelector('dialog')).not.toBeNull();
        },
        { timeout: 10_000 },
      );
      expect(formGone).not.toHaveBeenCalled();
      await act(async () => page.host.querySelector('dialog')!.dispatchEvent(new Event('cancel')));
      expect(page.host.querySelector('dialog')).toBeNull();
      expect(document.activeElement).toBe(page.button(name));
    },
  );

  it('say what to do where the film has no picture yet', async () => {
    await page.showSettled(
      <Suspense>
        <PartLines film={PICTURE} tools={TOOLS} actions={{} as BenchActions} />
      </Suspense>,
    );
    await act(async () => page.button('Split').click());
    await act(() =>
      vi.waitFor(() =>
        expect(page.host.querySelector('dialog [role="status"]')?.textContent).toContain(
          'wait until the film is shown',
        ),
      ),
    );
  });
});
