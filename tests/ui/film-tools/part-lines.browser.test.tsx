import { act, createElement, Suspense } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { FilmRecord } from '../../../src/case/document.ts';
import type { BenchActions } from '../../../src/ui/actions.ts';
import type { FilmToolActions, FilmToolsState } from '../../../src/ui/film-tools/film-tools.ts';
import { PartLines } from '../../../src/ui/film-tools/PartLines.tsx';

let host: HTMLElement;
let root: Root;

// Served beforehand, which takes long on a loaded machine; a sheet is still waited for when it is first wanted.
beforeAll(
  () =>
    Promise.all([
      import('../../../src/ui/film-tools/SplitSheet.tsx'),
      import('../../../src/ui/film-tools/StraightenSheet.tsx'),
    ]),
  60_000,
);

beforeEach(() => {
  (globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;
  host = document.createElement('main');
  document.body.append(host);
  root = createRoot(host);
});

afterEach(() => {
  act(() => root.unmount());
  host.remove();
});

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

const button = (name: string) =>
  [...host.querySelectorAll('button')].find(({ textContent }) => textContent === name)!;

describe('the sheets for parts of a picture', () => {
  it.each(['Split', 'Straighten'])(
    'leave the form in place while that of “%s” is fetched, and give the focus back to its button',
    async (name) => {
      formGone.mockClear();
      await act(async () =>
        root.render(
          <Suspense fallback={createElement(formGone)}>
            <PartLines film={PICTURE} tools={TOOLS} actions={{} as BenchActions} />
          </Suspense>,
        ),
      );
      act(() => button(name).focus());
      await act(async () => button(name).click());
      await vi.waitFor(
        async () => {
          await act(async () => undefined);
          expect(host.querySelector('dialog')).not.toBeNull();
        },
        { timeout: 10_000 },
      );
      expect(formGone).not.toHaveBeenCalled();
      await act(async () => host.querySelector('dialog')!.dispatchEvent(new Event('cancel')));
      expect(host.querySelector('dialog')).toBeNull();
      expect(document.activeElement).toBe(button(name));
    },
  );

  it('say what to do where the film has no picture yet', async () => {
    await act(async () =>
      root.render(
        <Suspense>
          <PartLines film={PICTURE} tools={TOOLS} actions={{} as BenchActions} />
        </Suspense>,
      ),
    );
    await act(async () => button('Split').click());
    await act(() =>
      vi.waitFor(() =>
        expect(host.querySelector('dialog [role="status"]')?.textContent).toContain(
          'wait until the film is shown',
        ),
      ),
    );
  });
});
