import { expect, it } from 'vitest';
import { userEvent } from 'vitest/browser';
import '../../../src/ui/look/tokens.css';
import '../../../src/ui/look/base.css';
import '../../../src/ui/look/controls.css';
import { Choice } from '../../../src/ui/controls/controls.tsx';
import { mounted } from '../mounted.ts';

const page = mounted();

it('leaves the page where it is when an option far down a sheet that scrolls is chosen', async () => {
  const { host } = page;
  Object.assign(host.style, { height: '300px', overflow: 'auto' });
  const chosen: string[] = [];
  page.show(
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
  );
  const scrolled = document.scrollingElement!;
  const before = scrolled.scrollHeight;
  expect(before).toBeLessThan(2000);
  await userEvent.click(
    [...host.querySelectorAll('label')].find(({ textContent }) => textContent === 'yes')!,
  );
  expect(chosen).toEqual(['yes']);
  expect(scrolled.scrollTop).toBe(0);
});
