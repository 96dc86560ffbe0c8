import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, describe, expect, inject, it, onTestFinished } from 'vitest';
import { closeBrowser, theBrowser } from './browser.ts';

afterAll(closeBrowser);

const RENAMED = 'assets/renamed.js';

/** The build under an address of its own, and a newer one in which the chunk of a place has another name. */
async function serveTwoVersions(place: RegExp) {
  let newer = false;
  const old = await (await fetch(new URL('service-worker.js', inject('appUrl')))).text();
  const chunk = place.exec(old)?.[0];
  const version = /version:\s*["'`]([0-9a-f]{16})|"version":"([0-9a-f]{16})/.exec(old);
  const known = version?.[1] ?? version?.[2];
  if (chunk === undefined || known === undefined)
    throw new Error('The service worker lists its files otherwise.');
  const server = createServer(async (request, response) => {
    const path = (request.url ?? '/').slice(1);
    const gone = newer && path === chunk;
    const found = gone ? null : await fetch(new URL(path === RENAMED ? chunk : path, inject('appUrl')));
    if (found === null || !found.ok) {
      response.writeHead(404).end();
      return;
    }
    const type = found.headers.get('content-type') ?? 'application/octet-stream';
    response.writeHead(200, { 'content-type': type, 'cache-control': 'no-store' });
    const renamed = newer && path === 'service-worker.js';
    response.end(
      renamed
        ? old.replaceAll(known, 'f'.repeat(16)).replaceAll(chunk, RENAMED)
        : Buffer.from(await found.arrayBuffer()),
    );
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    update: () => {
      newer = true;
    },
  };
}

describe('a newer version', () => {
  it('taken in one window leaves the other what it has not fetched yet, and the old files go with the last window', async () => {
    const { url, update } = await serveTwoVersions(/assets\/LimitsPlace-[\w-]+\.js/);
    const context = await (await theBrowser()).newContext({ serviceWorkers: 'allow' });
    onTestFinished(() => context.close());
    const open = async () => {
      const page = await context.newPage();
      await page.goto(url);
      await page.getByText('Saved on this computer only · 4 films').waitFor();
      return page;
    };
    const versions = (page: Awaited<ReturnType<typeof open>>) =>
      page.evaluate(async () => (await caches.keys()).filter((name) => name.startsWith('raybend-')).length);
    const one = await open();
    await one.evaluate(async () => {
      await navigator.serviceWorker.ready;
      if (navigator.serviceWorker.controller === null)
        await new Promise((taken) => navigator.serviceWorker.addEventListener('controllerchange', taken));
    });
    const other = await open();

    update();
    await one.evaluate(async () => (await navigator.serviceWorker.ready).update());
    await Promise.all([one.waitForEvent('load'), one.getByRole('button', { name: 'Reload now' }).click()]);
    await one.getByText('Saved on this computer only · 4 films').waitFor();
    expect(await versions(one)).toBe(2);

    await other.getByRole('link', { name: 'Limits' }).click();
    await other.getByRole('heading', { name: 'Limits and where they come from' }).waitFor();

    await one.close();
    await other.close();
    const next = await open();
    await expect.poll(() => versions(next)).toBe(1);
  });
});
