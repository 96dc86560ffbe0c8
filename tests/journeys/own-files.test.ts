import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { closeBrowser, theBrowser } from './browser.ts';
import { STATES } from './states.ts';

/** Where a clinic may put it. */
const FOLDER = '/tools/hand/';
/** As docs/deploy.md asks for. */
const HEADERS = {
  'Content-Security-Policy': "frame-ancestors 'none'",
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
};

let server: Server;
let address: string;
/** Every request that reached the server: its path and the status it got. */
const asked: { readonly path: string; readonly status: number }[] = [];
/** Put at the end of the service worker, so that it is a newer one. */
let newer = '';

/** The built app in a folder of another server, which sees what is asked of it. */
beforeAll(async () => {
  server = createServer(async (request, response) => {
    const path = request.url ?? '/';
    const inFolder = path.startsWith(FOLDER) ? path.slice(FOLDER.length) : null;
    const found = inFolder === null ? null : await fetch(new URL(inFolder, inject('appUrl')));
    const status = found?.status ?? 404;
    asked.push({ path, status });
    const type = found?.headers.get('content-type') ?? 'text/plain';
    response.writeHead(status, { ...HEADERS, 'Content-Type': type, 'Cache-Control': 'no-cache' });
    const isWorker = inFolder === 'service-worker.js';
    response.end(
      Buffer.concat([
        Buffer.from(found === null ? new ArrayBuffer(0) : await found.arrayBuffer()),
        Buffer.from(isWorker ? newer : ''),
      ]),
    );
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}${FOLDER}`;
});

afterAll(async () => {
  await closeBrowser();
  server.closeAllConnections();
  server.close();
});

const ready = (page: Page) => page.getByText('Saved on this computer only · 4 films').waitFor();

describe('served from a folder of a clinic', () => {
  it('asks for nothing but its own files on a walk through everything', async () => {
    const everywhere: string[] = [];
    const blocked: string[] = [];
    for (const [index, state] of STATES.entries()) {
      // A profile for each, since each begins from the sample; in the first the service worker fetches every file.
      const serviceWorkers = index === 0 ? 'allow' : 'block';
      const context = await (await theBrowser()).newContext({ reducedMotion: 'reduce', serviceWorkers });
      await context.addInitScript(() =>
        localStorage.setItem('raybend-hints-closed', 'begin points reading limits'),
      );
      context.on('request', (request) => everywhere.push(request.url()));
      const page = await context.newPage();
      page.on('console', (message) => {
        if (message.type() === 'error') blocked.push(message.text());
      });
      await page.goto(address);
      await ready(page);
      if (index === 0) await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
      await page.getByRole('button', { name: 'Place proximal axis' }).waitFor();
      await state.reach(page);
      await context.close();
    }
    expect(asked.length).toBeGreaterThan(30);
    expect(asked.filter(({ path, status }) => !path.startsWith(FOLDER) || status !== 200)).toEqual([]);
    expect(everywhere.filter((url) => !url.startsWith(address) && !/^(blob|data):/.test(url))).toEqual([]);
    expect(blocked).toEqual([]);
  });

  it('does not interrupt a measurement for a newer version, which is offered and taken on request', async () => {
    const context = await (await theBrowser()).newContext();
    const page = await context.newPage();
    await page.goto(address);
    await ready(page);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    await page.getByRole('button', { name: 'Place proximal axis' }).click();
    await page.locator('.plate__prompt').waitFor();
    await page.evaluate(() => Object.assign(window, { sameVisit: true }));

    newer = '\n// a newer one';
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
    await page.getByText('A newer Raybend is ready').waitFor();
    // What was begun goes on: same page, same prompt, and the old version still answers.
    expect(await page.evaluate(() => 'sameVisit' in window)).toBe(true);
    expect(await page.locator('.plate__prompt').count()).toBe(1);

    const loaded = page.waitForEvent('load');
    await page.getByRole('button', { name: 'Reload now' }).click();
    await loaded;
    await page.getByText('Saved on this computer only · 4 films').waitFor();
    expect(await page.evaluate(() => 'sameVisit' in window)).toBe(false);
    await context.close();
  });

  it('carries a policy without evaluated scripts and with connections to itself alone', async () => {
    const page = await (await fetch(address)).text();
    const policy =
      /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(page)?.[1]?.replaceAll('&#39;', "'") ??
      '';
    const directives = Object.fromEntries(
      policy.split('; ').map((directive) => {
        const [name = '', ...sources] = directive.split(' ');
        return [name, sources.join(' ')];
      }),
    );
    expect(directives['default-src']).toBe("'none'");
    expect(directives['connect-src']).toBe("'self'");
    expect(directives['script-src']).toBe("'self' 'wasm-unsafe-eval'");
  });
});

describe('a browser that lacks something', () => {
  it.each(['OffscreenCanvas', 'Worker'] as const)('says so instead of starting: %s', async (name) => {
    const context = await (await theBrowser()).newContext({ serviceWorkers: 'block' });
    await context.addInitScript((lacking) => {
      delete (globalThis as unknown as Record<string, unknown>)[lacking];
    }, name);
    const page = await context.newPage();
    const thrown: string[] = [];
    page.on('pageerror', ({ message }) => thrown.push(message));
    await page.goto(inject('appUrl'));
    await page.getByText('Use a current version of').waitFor();
    expect(await page.getByRole('button').count()).toBe(0);
    expect(thrown).toEqual([]);
    await context.close();
  });
});
