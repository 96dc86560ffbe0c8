import { expect, it } from 'vitest';
import type { DemoStep } from '../../../src/classroom/demonstration.ts';
import { Handout } from '../../../src/ui/classroom/Handout.tsx';
import { mounted } from '../mounted.ts';

const page = mounted();
const STEP = { id: 'film', title: 'The film', words: 'A small metacarpal.' } as unknown as DemoStep;
const status = () => page.host.querySelector('[role="status"]')?.textContent;

const handout = (picture: string | null, missing: string | null) => (
  <Handout
    title="Steps"
    kept={[{ step: STEP, picture }]}
    video="A video takes four seconds a step."
    missing={missing}
    canRecord
    onPrint={() => undefined}
    onVideo={() => undefined}
    onBack={() => undefined}
  />
);

it('a handout waits for its pictures, and no longer once one will not come', () => {
  page.show(handout(null, null));
  expect(status()).toBe('The pictures are being drawn…');
  page.show(handout(null, 'A step could not be drawn. Demonstrate a smaller film.'));
  expect(status()).toBe('A step could not be drawn. Demonstrate a smaller film.');
  expect(page.button('Print').disabled).toBe(true);
  page.show(handout('data:,', null));
  expect(status()).toBe('A video takes four seconds a step.');
  expect(page.button('Print').disabled).toBe(false);
});
