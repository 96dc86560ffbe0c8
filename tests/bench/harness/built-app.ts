import { execFileSync } from 'node:child_process';
import { resolve } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright';
import { build, preview } from 'vite';
import { findBrowser } from '../../browser-path.ts';

export interface Opened {
  readonly browser: Browser;
  readonly page: Page;
  readonly url: string;
  readonly close: () => Promise<void>;
}

/** A page that shares nothing with others is given a clock of 0.005 ms, any other one of 0.1 ms: a tenth of a frame here. */
const FINE_CLOCK = {
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
};

async function opened(folder: string, headers: Readonly<Record<string, string>> = {}): Promise<Opened> {
  const server = await preview({
    configFile: false,
    root: folder,
    build: { outDir: folder },
    preview: { host: '127.0.0.1', port: 0, headers },
    logLevel: 'error',
  });
  const { executablePath, args, env } = await findBrowser();
  const browser = await chromium.launch({
    executablePath,
    args: [...args],
    env: { ...process.env, ...env } as never,
  });
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
  const close = async () => {
    await browser.close();
    await server.close();
  };
  return { browser, page, url: server.resolvedUrls?.local[0] ?? '', close };
}

const folderFor = (name: string) => resolve('node_modules/.cache', name);

/** The app as it ships, served, with a browser beside it. */
export async function builtApp(): Promise<Opened> {
  const folder = folderFor('bench-app');
  execFileSync('npx', ['vite', 'build', '--outDir', folder, '--logLevel', 'error'], { stdio: 'inherit' });
  return opened(folder);
}

/** A page of `pages/`, built as the app is. */
export async function builtPage(name: string): Promise<Opened> {
  const folder = folderFor(`bench-${name}`);
  const root = resolve(import.meta.dirname, '../pages');
  await build({
    configFile: false,
    root,
    build: { outDir: folder, emptyOutDir: true, rolldownOptions: { input: resolve(root, `${name}.html`) } },
    logLevel: 'error',
  });
  const page = await opened(folder, FINE_CLOCK);
  return { ...page, url: new URL(`${name}.html`, page.url).href };
}
