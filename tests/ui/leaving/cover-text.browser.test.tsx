import { createElement } from 'react';
import { expect, it, vi } from 'vitest';
import { recordId } from '../../../src/case/document.ts';
import { CoverText } from '../../../src/ui/leaving/CoverText.tsx';
import { mounted } from '../mounted.ts';

const page = mounted();

it('says of a film without pixels that there is nothing to cover, instead of getting it for ever', async () => {
  await page.showSettled(
    createElement(CoverText, {
      filmId: recordId('film-1'),
      areas: [],
      still: () => Promise.resolve(null),
      onChange: vi.fn(),
    }),
  );
  expect(page.host.textContent).toMatch(/no pixels here.* Open its file again/);
});
