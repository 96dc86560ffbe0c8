import { AxeBuilder } from '@axe-core/playwright';
import type { BrowserContextOptions, Page } from 'playwright';
import { afterAll, describe, expect, it } from 'vitest';
import { closeBrowser, visit } from './browser.ts';
import { STATES, type State } from './states.ts';

afterAll(closeBrowser);

/** Goes to a state of the app in a browser set up in some way, and leaves it after a look. */
async function at<Found>(
  state: State,
  options: BrowserContextOptions,
  look: (page: Page) => Promise<Found>,
): Promise<Found> {
  const seen = await visit(options);
  const { page } = seen;
  await page.getByText('Saved on this computer only · 4 films').waitFor();
  await state.reach(page);
  const found = await look(page);
  expect(seen.trouble).toEqual([]);
  await seen.close();
  return found;
}

/** WCAG 2.0 to 2.2, A and AA, and the rules axe calls best practice. */
async function violations(page: Page): Promise<readonly string[]> {
  const { violations: found } = await new AxeBuilder({ page }).analyze();
  return found.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html.slice(0, 160)}`));
}

/** Text that is cut off: hidden by its own box, or beyond the right edge with nothing to scroll. */
const cutText = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    const found = scrollWidth > clientWidth ? [`the page is ${scrollWidth} wide in ${clientWidth}`] : [];
    const hides = (overflow: string) => overflow === 'hidden' || overflow === 'clip';
    const scrolls = (element: Element | null): boolean =>
      element !== null &&
      (/auto|scroll/.test(getComputedStyle(element).overflowX) || scrolls(element.parentElement));
    for (const element of document.querySelectorAll<HTMLElement>('body *')) {
      const { overflowX, overflowY, textOverflow } = getComputedStyle(element);
      // A thumbnail has its number on it and a name for screen readers in it; an input scrolls by itself.
      const apart = element.closest(
        '.strip__film, .visually-hidden, [aria-hidden="true"], canvas, svg, input',
      );
      if (apart !== null || element.offsetParent === null || textOverflow === 'ellipsis') continue;
      if (element.clientWidth < 3) continue;
      const name = `${element.tagName} ${element.className} “${element.textContent?.slice(0, 40)}”`;
      if (hides(overflowX) && element.scrollWidth > element.clientWidth + 1) found.push(`across: ${name}`);
      if (hides(overflowY) && element.scrollHeight > element.clientHeight + 1) found.push(`down: ${name}`);
      const isText = element.children.length === 0 && element.textContent?.trim() !== '';
      if (isText && element.getBoundingClientRect().right > innerWidth + 1 && !scrolls(element.parentElement))
        found.push(`beyond the edge: ${name}`);
    }
    return found;
  });

/** What can be pressed and is less than 44 by 44 pixels (WCAG 2.2, 2.5.5). */
const smallTargets = (page: Page): Promise<readonly string[]> =>
  page.locator('button, summary, nav a, .choice__option, input').evaluateAll((all) =>
    all
      // A point on the film is a stop for the keyboard; a finger takes hold of it within 22 pixels of its middle
      // (tests/canvas/control-hit.test.ts).
      .filter((one) => one.closest('.visually-hidden, [aria-hidden="true"], .plate__host') === null)
      .map((one) => ({
        // What is touched of a box or a slider is its label or its track.
        box: (one.closest('label, .range__track, .dial__track') ?? one).getBoundingClientRect(),
        name: `${one.tagName} ${one.ariaLabel || one.textContent || one.parentElement?.className}`,
      }))
      .filter(({ box }) => box.width > 2 && box.height > 2 && (box.width < 43.5 || box.height < 43.5))
      .map(({ name, box }) => `${name}: ${box.width} × ${box.height}`),
  );

describe.each(STATES)('$name', (state) => {
  it('has no barrier that axe knows of, in three looks, and cuts no text at twice its size', async () => {
    const found = await at(state, {}, async (page) => {
      const paper = await violations(page);
      await page.emulateMedia({ colorScheme: 'dark' });
      const readingRoom = await violations(page);
      await page.emulateMedia({ colorScheme: 'light', forcedColors: 'active' });
      const forced = await violations(page);
      await page.emulateMedia({ forcedColors: 'none' });
      const name = page.locator('h1').first();
      const size = () => name.evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
      const before = await size();
      // 15 px as it comes, so that 200 % of the browser's own is more than twice.
      await page.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
      expect((await size()) / before).toBeGreaterThan(2);
      await page.waitForTimeout(200);
      return { paper, readingRoom, forced, cut: await cutText(page) };
    });
    expect(found).toEqual({ paper: [], readingRoom: [], forced: [], cut: [] });
  });

  it('has targets of 44 pixels under a finger', async () => {
    const touch = { hasTouch: true, isMobile: true, viewport: { width: 820, height: 1180 } };
    expect(await at(state, touch, smallTargets)).toEqual([]);
  });
});

describe('what is chosen', () => {
  it('can be told in forced colours, where grounds are taken away', async () => {
    const [first] = STATES;
    const grounds = await at(first!, { forcedColors: 'active' }, (page) =>
      page.locator('.choice__option').evaluateAll((all) =>
        all.map((one) => ({
          chosen: one.hasAttribute('data-selected'),
          ground: getComputedStyle(one).backgroundColor,
        })),
      ),
    );
    const chosen = grounds.filter((one) => one.chosen).map(({ ground }) => ground);
    const others = grounds.filter((one) => !one.chosen).map(({ ground }) => ground);
    expect(chosen.length).toBeGreaterThan(1);
    expect(others.length).toBeGreaterThan(1);
    for (const ground of chosen) expect(others).not.toContain(ground);
  });
});
