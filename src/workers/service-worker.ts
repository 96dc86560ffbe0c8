/// <reference lib="webworker" />

/**
 * Keeps the app's own files in this browser, so that it starts with the server stopped.
 *
 * The list and its version are written in by the bundler (vite.config.ts). Files are answered from the cache
 * first; what is not in the list is left to the network. A newer version waits until every window of the old
 * one is closed, or until a window asks for it: an update never interrupts a measurement.
 */

declare const __PRECACHE__: { readonly version: string; readonly files: readonly string[] };

const scope = self as unknown as ServiceWorkerGlobalScope;
const PREFIX = 'raybend-';
const CACHE = `${PREFIX}${__PRECACHE__.version}`;

scope.addEventListener('install', (event) => {
  event.waitUntil(
    caches.open(CACHE).then((cache) =>
      // The browser's own cache may hold a file of the version before.
      cache.addAll(__PRECACHE__.files.map((file) => new Request(file, { cache: 'reload' }))),
    ),
  );
});

scope.addEventListener('activate', (event) => {
  const tidy = async () => {
    const names = await caches.keys();
    const old = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
    await Promise.all(old.map((name) => caches.delete(name)));
    await scope.clients.claim();
  };
  event.waitUntil(tidy());
});

scope.addEventListener('message', (event) => {
  if (event.data === 'take-over') void scope.skipWaiting();
});

scope.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== scope.location.origin) return;
  event.respondWith(answer(request));
});

async function answer(request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(request.mode === 'navigate' ? './' : request, {
    ignoreSearch: true,
    // Servers that answer "Vary: Origin" mean something else than a second copy of a file.
    ignoreVary: true,
  });
  return kept ?? fetch(request);
}
