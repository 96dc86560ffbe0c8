import { afterAll, expect, it } from 'vitest';
import { closeBrowser, visit } from './browser.ts';
import { placeAxes } from './sample-film.ts';

afterAll(closeBrowser);

it('says the whole of the main job to a screen reader: where, what next, what was read, what it means', async () => {
  const { page, trouble, close } = await visit();
  await page.getByText('Saved on this computer only · 4 films').waitFor();
  await page.getByRole('button', { name: 'Place proximal axis' }).waitFor();
  const tree = () => page.locator('body').ariaSnapshot();

  const before = await tree();
  for (const part of [
    'heading "Raybend" [level=1]',
    'navigation "Places"',
    'heading "Right hand, small finger, neck"',
    'radiogroup "View"',
    'group "Trace both axes"',
    'button "Place proximal axis"',
    'slider "Brightness"',
    'heading "Against the limits"',
    'Knuckles not yet looked at for a wound.',
  ])
    expect(before).toContain(part);

  await page.getByRole('button', { name: 'Place proximal axis' }).click();
  const placing = await tree();
  // What to do next is a live region, so that it is read out when it changes.
  expect(placing).toMatch(/status: .*level 1, nearest the wrist/);
  await page.keyboard.press('Escape');

  await placeAxes(page);
  await page.locator('[data-quantity="angulation"]').waitFor();
  const after = await tree();
  expect(after).toContain('Angulation, measured');
  expect(after).toMatch(/apex dorsal/);
  // Points can be reached and are named for what they are.
  expect(after).toContain('"proximal axis, end 1');
  expect(after).toMatch(/(Inside|Cannot tell|Past).*limit of 50–60°/);
  expect(trouble).toEqual([]);
  await close();
});
