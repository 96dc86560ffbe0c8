import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright';
import { afterAll, afterEach, beforeEach, expect, inject } from 'vitest';
import { findBrowser } from '../browser-path.ts';

const SLOWEST_STEP_MS = 90_000;

let browser: Promise<Browser> | null = null;

/** One Chromium for all journeys of a file. */
export function theBrowser(): Promise<Browser> {
  browser ??= findBrowser().then(({ executablePath, args, env }) =>
    chromium.launch({
      executablePath,
      args: [...args],
      env: { ...process.env, ...env } as Record<string, string>,
    }),
  );
  return browser;
}

export async function closeBrowser(): Promise<void> {
  await (await browser)?.close();
  browser = null;
}

/** A visit to the app in a browser profile of its own, with everything that went wrong on the page. */
export interface Visit {
  readonly page: Page;
  /** Errors thrown or logged by the page, and every request that was not for the app's own files. */
  readonly trouble: readonly string[];
  close(): Promise<void>;
}

interface VisitOptions extends BrowserContextOptions {
  /** The hints of a first start are shown; they are closed beforehand unless a journey is about them. */
  readonly hints?: boolean;
  /** Runs in the page before the app does, after a reload too. */
  readonly before?: () => void;
}

export async function visit({ hints = false, before, ...options }: VisitOptions = {}): Promise<Visit> {
  const url = inject('appUrl');
  const context = await (await theBrowser()).newContext({
    viewport: { width: 1280, height: 800 },
    reducedMotion: 'reduce',
    colorScheme: 'light',
    locale: 'en-GB',
    // Only the journey without a server needs what a service worker fetches ahead.
    serviceWorkers: 'block',
    ...options,
  });
  if (!hints)
    await context.addInitScript(() =>
      localStorage.setItem('raybend-hints-closed', 'begin points reading limits'),
    );
  if (before !== undefined) await context.addInitScript(before);
  // Longer than any step takes on a busy machine, shorter than a test may last: a failure still says which step.
  context.setDefaultTimeout(SLOWEST_STEP_MS);
  const page = await context.newPage();
  const trouble: string[] = [];
  page.on('pageerror', (error) => trouble.push(`thrown: ${error.message}`));
  page.on('console', (message) => {
    if (message.type() === 'error') trouble.push(`logged: ${message.text()}`);
  });
  page.on('request', (request) => {
    const own = request.url().startsWith(url) || /^(blob|data):/.test(request.url());
    if (!own) trouble.push(`left the machine: ${request.url()}`);
  });
  await page.goto(url);
  return { page, trouble, close: () => context.close() };
}

/** The visit of the test that runs. */
export interface EachVisit extends Omit<Visit, 'close'> {
  /** Ends the visit and begins another one in a profile of its own, as if on another computer. */
  anew(options?: VisitOptions): Promise<void>;
}

/** For each test of a file a fresh visit, the sample case open with all its films; whatever went wrong on the page fails it. */
export function visitEach(usual: VisitOptions = {}): EachVisit {
  let current: Visit;
  const begin = async (options: VisitOptions) => {
    current = await visit(options);
    await current.page.getByText('Saved on this computer only · 4 films').waitFor();
  };
  const end = async () => {
    expect(current.trouble).toEqual([]);
    await current.close();
  };
  beforeEach(() => begin(usual));
  afterEach(end);
  afterAll(closeBrowser);
  return {
    get page() {
      return current.page;
    },
    get trouble() {
      return current.trouble;
    },
    async anew(options = usual) {
      await end();
      await begin(options);
    },
  };
}
