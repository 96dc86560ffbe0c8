import { act } from 'react';
import { createRoot } from 'react-dom/client';
import { expect, it } from 'vitest';
import { userEvent } from 'vitest/browser';
import '../../../src/ui/look/tokens.css';
import '../../../src/ui/look/base.css';
import '../../../src/ui/look/controls.css';
import { Choice } from '../../../src/ui/controls/controls.tsx';

it('leaves the page where it is when an option far down a sheet that scrolls is chosen', async () => {
  (globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;
  const host = document.createElement('main');
  Object.assign(host.style, { height: '300px', overflow: 'auto' });
  document.body.append(host);
  const root = createRoot(host);
  const chosen: string[] = [];
  act(() =>
    root.render(
      <>
        <div style={{ height: '4000px' }} />
        <Choice
          label="Plaster"
          options={[
            { value: 'no', name: 'no' },
            { value: 'yes', name: 'yes' },
          ]}
          value="no"
          onChange={(value) => chosen.push(value ?? '')}
        />
      </>,
    ),
  );
  const page = document.scrollingElement!;
  const before = page.scrollHeight;
  expect(before).toBeLessThan(2000);
  await userEvent.click(
    [...host.querySelectorAll('label')].find(({ textContent }) => textContent === 'yes')!,
  );
  expect(chosen).toEqual(['yes']);
  expect(page.scrollTop).toBe(0);
  act(() => root.unmount());
  host.remove();
});
