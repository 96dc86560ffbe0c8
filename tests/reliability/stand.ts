import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright';
import { build, preview } from 'vite';
import { findBrowser } from '../browser-path.ts';

export const SEED = Number(process.env.RELIABILITY_SEED ?? 20_260_301);

export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** The harness page, built as the app is and served on a free port. */
export async function serveHarness(): Promise<{ readonly url: string; close(): Promise<void> }> {
  const root = resolve('tests/reliability/harness');
  const outDir = resolve('node_modules/.cache/reliability');
  await build({
    configFile: false,
    root,
    base: './',
    logLevel: 'silent',
    worker: { format: 'es' },
    build: { outDir, emptyOutDir: true, target: 'es2022', assetsInlineLimit: 0 },
  });
  const server = await preview({
    configFile: false,
    root: outDir,
    build: { outDir },
    preview: { host: '127.0.0.1', port: 0 },
    logLevel: 'error',
  });
  return { url: server.resolvedUrls?.local[0] ?? '', close: () => server.close() };
}

/** A Chromium with a profile on the disk, that can be killed with everything in it and started again. */
export class Stand {
  private readonly profile = mkdtempSync(join(tmpdir(), 'raybend-reliability-'));
  private process: ChildProcess | null = null;
  private browser: Browser | null = null;

  constructor(private readonly url: string) {}

  async start(): Promise<void> {
    const { executablePath, args, env } = await findBrowser();
    const child = spawn(
      executablePath,
      [
        ...args,
        '--headless=new',
        '--remote-debugging-port=0',
        `--user-data-dir=${this.profile}`,
        'about:blank',
      ],
      { env: { ...process.env, ...env }, stdio: ['ignore', 'ignore', 'pipe'], detached: true },
    );
    this.process = child;
    const endpoint = await new Promise<string>((found, failed) => {
      let heard = '';
      child.stderr!.on('data', (chunk: Buffer) => {
        heard += chunk.toString();
        const match = /DevTools listening on (ws:\S+)/.exec(heard);
        if (match?.[1] !== undefined) found(match[1]);
      });
      child.once('exit', () => failed(new Error(`Chromium ended at its start: ${heard.slice(-400)}`)));
    });
    this.browser = await chromium.connectOverCDP(endpoint);
  }

  /** A page with the harness, ready. `acknowledged` grows as steps are acknowledged. */
  async open(): Promise<{ readonly page: Page; readonly acknowledged: number[] }> {
    const page = await this.context().newPage();
    const acknowledged: number[] = [];
    page.on('console', (message) => {
      const step = /^acknowledged (\d+)$/.exec(message.text())?.[1];
      if (step !== undefined) acknowledged.push(Number(step));
    });
    await page.goto(this.url);
    await page.waitForFunction(() => window.harness !== undefined);
    return { page, acknowledged };
  }

  /** Ends the process of one page in the middle of whatever it does. */
  async killPage(page: Page): Promise<void> {
    const session = await this.context().newCDPSession(page);
    const gone = new Promise<void>((resolveGone) => page.once('crash', () => resolveGone()));
    void session.send('Page.crash').catch(() => undefined);
    await gone;
    await page.close().catch(() => undefined);
  }

  /** Ends the whole browser at once, by the process group that this stand started. */
  async killBrowser(): Promise<void> {
    const child = this.process;
    if (child?.pid === undefined) return;
    const ended = new Promise<void>((resolveEnded) => child.once('exit', () => resolveEnded()));
    process.kill(-child.pid, 'SIGKILL');
    await ended;
    this.process = null;
    this.browser = null;
  }

  async stop(): Promise<void> {
    await this.killBrowser();
    rmSync(this.profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }

  private context(): BrowserContext {
    const [context] = this.browser?.contexts() ?? [];
    if (context === undefined) throw new Error('The browser is not running.');
    return context;
  }
}
