import type { BrowserContextOptions, Page } from 'playwright';
import { afterAll, describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { closeBrowser, visit } from './browser.ts';
import { STATES, type State } from './states.ts';

afterAll(closeBrowser);

/** A file that is no film: the app says so in a message, which then stays until it is put away. */
const LETTER = { name: 'letter.txt', mimeType: 'text/plain', buffer: Buffer.from('Dear reader') };

/** Goes to a state of the app, with a message up, in a browser set up in some way, and leaves it after a look. */
async function at<Found>(
  state: State,
  options: BrowserContextOptions,
  look: (page: Page) => Promise<Found>,
): Promise<Found> {
  const seen = await visit(options);
  const { page } = seen;
  await page.getByText('Saved on this computer only · 4 films').waitFor();
  await page.getByLabel('Film files').setInputFiles(LETTER);
  await page.getByRole('log', { name: 'Messages' }).getByText('letter.txt').waitFor();
  await state.reach(page);
  const found = await look(page);
  expect(seen.trouble).toEqual([]);
  await seen.close();
  return found;
}

/** Until the page has been drawn twice: what has just changed is then in sight. */
const drawn = (page: Page): Promise<unknown> =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

/** The rules of axe that look at colours. */
const COLOUR_RULES = ['color-contrast', 'link-in-text-block'];

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

/** How far the page as a whole can be scrolled: the places scroll inside themselves, so that the header stays. */
const scrollsPastEnd = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollHeight - document.documentElement.clientHeight);

/** What can be pressed or typed into and lies, at least in part, under a message (WCAG 2.2, 2.4.11). */
const underMessages = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    type Box = Pick<DOMRect, 'left' | 'top' | 'right' | 'bottom'>;
    const common = (a: Box, b: Box): Box => ({
      left: Math.max(a.left, b.left),
      top: Math.max(a.top, b.top),
      right: Math.min(a.right, b.right),
      bottom: Math.min(a.bottom, b.bottom),
    });
    /** What of an element is in sight: the boxes around it that scroll or cut show only their own part. */
    const inSight = (element: Element): Box => {
      let box: Box = element.getBoundingClientRect();
      for (let around = element.parentElement; around !== null; around = around.parentElement)
        if (getComputedStyle(around).overflowY !== 'visible')
          box = common(box, around.getBoundingClientRect());
      return box;
    };
    const messages = [...document.querySelectorAll('.message')].map((one) => one.getBoundingClientRect());
    if (messages.length === 0) return ['no message is up'];
    return (
      [...document.querySelectorAll('button, a, input, select, textarea, summary, label')]
        // What lies under a sheet cannot be pressed, and points of a film are moved from under a message with the film.
        .filter((one) => one.closest('.message, .visually-hidden, .plate__host, dialog') === null)
        .filter((one) =>
          messages.some((message) => {
            const { left, top, right, bottom } = common(inSight(one), message);
            return right - left > 1 && bottom - top > 1;
          }),
        )
        .map((one) => `${one.tagName} ${one.ariaLabel ?? one.textContent}`)
    );
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
      const covered = await underMessages(page);
      const pastEnd = await scrollsPastEnd(page);
      // The looks differ in colours and in nothing else.
      await page.emulateMedia({ colorScheme: 'dark' });
      await drawn(page);
      const readingRoom = await violations(page, { rules: COLOUR_RULES });
      await page.emulateMedia({ colorScheme: 'light', forcedColors: 'active' });
      await drawn(page);
      const forced = await violations(page, { rules: COLOUR_RULES });
      await page.emulateMedia({ forcedColors: 'none' });
      const name = page.locator('h1').first();
      const size = () => name.evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
      const before = await size();
      // 15 px as it comes, so that 200 % of the browser's own is more than twice.
      await page.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
      expect((await size()) / before).toBeGreaterThan(2);
      await drawn(page);
      const large = {
        cut: await cutText(page),
        covered: await underMessages(page),
        pastEnd: await scrollsPastEnd(page),
      };
      return { paper, covered, pastEnd, readingRoom, forced, large };
    });
    expect(found).toEqual({
      paper: [],
      covered: [],
      pastEnd: 0,
      readingRoom: [],
      forced: [],
      large: { cut: [], covered: [], pastEnd: 0 },
    });
  });

  it('has targets of 44 pixels under a finger, none of them under a message', async () => {
    const touch = { hasTouch: true, isMobile: true, viewport: { width: 820, height: 1180 } };
    const found = await at(state, touch, async (page) => ({
      small: await smallTargets(page),
      covered: await underMessages(page),
    }));
    expect(found).toEqual({ small: [], covered: [] });
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
