import { act, createElement } from 'react';
import { createRoot } from 'react-dom/client';
import { expect, it, vi } from 'vitest';
import { recordId } from '../../../src/case/document.ts';
import { CoverText } from '../../../src/ui/leaving/CoverText.tsx';

it('says of a film without pixels that there is nothing to cover, instead of getting it for ever', async () => {
  (globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;
  const host = document.createElement('main');
  document.body.append(host);
  const root = createRoot(host);
  await act(async () =>
    root.render(
      createElement(CoverText, {
        filmId: recordId('film-1'),
        areas: [],
        still: () => Promise.resolve(null),
        onChange: vi.fn(),
      }),
    ),
  );
  expect(host.textContent).toMatch(/no pixels here.* Open its file again/);
  act(() => root.unmount());
  host.remove();
});
