/// <reference lib="webworker" />

/**
 * Keeps the app's own files in this browser, so that it starts with the server stopped.
 *
 * The list and its version are written in by the bundler (vite.config.ts). Files are answered from the cache
 * first; what is not in the list is left to the network. A newer version waits until every window of the old
 * one is closed, or until a window asks for it. Other windows may still run the old one then, so its files stay
 * until no window is open: an update never interrupts a measurement.
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
  event.waitUntil(tidy().then(() => scope.clients.claim()));
});

scope.addEventListener('message', (event) => {
  if (event.data === 'take-over') void scope.skipWaiting();
});

scope.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== scope.location.origin) return;
  event.respondWith(answer(request));
  // A version that was taken over while windows were open finds none when the app is started the next time.
  if (request.mode === 'navigate') event.waitUntil(tidy());
});

const olderCaches = async (): Promise<readonly string[]> =>
  (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);

/** Removes the files of older versions, unless a window is open that may still fetch some of them. */
async function tidy(): Promise<void> {
  const windows = await scope.clients.matchAll({ type: 'window', includeUncontrolled: true });
  if (windows.length > 0) return;
  await Promise.all((await olderCaches()).map((name) => caches.delete(name)));
}

const AS_KEPT: CacheQueryOptions = {
  ignoreSearch: true,
  // Servers that answer "Vary: Origin" mean something else than a second copy of a file.
  ignoreVary: true,
};

async function answer(request: Request): Promise<Response> {
  const wanted = request.mode === 'navigate' ? './' : request;
  const keptIn = async (name: string) => (await caches.open(name)).match(wanted, AS_KEPT);
  const own = await keptIn(CACHE);
  if (own !== undefined) return own;
  // Only a window of an older version asks for what this one has not: the others never wait for the list of caches.
  for (const name of await olderCaches()) {
    const kept = await keptIn(name);
    if (kept !== undefined) return kept;
  }
  return fetch(request);
}
