import { existsSync } from 'node:fs';
import { chromium } from 'playwright';

/** How to start the Chromium found on this machine. */
export interface BrowserLaunch {
  readonly executablePath: string;
  readonly args: readonly string[];
  readonly env: Readonly<Record<string, string>>;
}

/** No GPU and no background traffic, so that a run looks the same on every machine. */
const QUIET_ARGS = [
  '--no-sandbox',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-accelerated-2d-canvas',
  '--disable-gpu-rasterization',
  '--font-render-hinting=none',
];

const SYSTEM_PATHS = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
];

/**
 * Finds a Chromium, in this order: `CHROMIUM_PATH`, the system's, Playwright's own download, and on
 * Linux x64 the one that ships inside the optional package `@sparticuz/chromium`.
 *
 * @throws Error with both ways to get one, when none is found.
 */
export async function findBrowser(): Promise<BrowserLaunch> {
  const plain = (executablePath: string): BrowserLaunch => ({ executablePath, args: QUIET_ARGS, env: {} });

  const named = process.env.CHROMIUM_PATH;
  if (named !== undefined && named !== '') {
    if (existsSync(named)) return plain(named);
    throw new Error(`CHROMIUM_PATH names ${named}, and there is no file there. Correct it or unset it.`);
  }
  const found = [...SYSTEM_PATHS, chromium.executablePath()].find((path) => existsSync(path));
  if (found !== undefined) return plain(found);

  if (process.platform === 'linux' && process.arch === 'x64') {
    const packaged = await unpackPackagedChromium();
    if (packaged !== null) return packaged;
  }
  throw new Error(
    'The tests need a Chromium and found none. Install one with "npx playwright install chromium", ' +
      'or on Debian and Ubuntu with "apt-get install chromium", or set CHROMIUM_PATH to the one you have.',
  );
}

async function unpackPackagedChromium(): Promise<BrowserLaunch | null> {
  // Read at import time by the package: without it, it does not unpack the libraries a bare system lacks.
  process.env.AWS_LAMBDA_JS_RUNTIME ??= 'nodejs22.x';
  try {
    const { default: packaged } = await import('@sparticuz/chromium');
    const executablePath = await packaged.executablePath();
    return {
      executablePath,
      args: QUIET_ARGS,
      env: { LD_LIBRARY_PATH: process.env.LD_LIBRARY_PATH ?? '' },
    };
  } catch {
    return null;
  }
}
