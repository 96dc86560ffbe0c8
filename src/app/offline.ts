import { type Shell, say } from './shell.ts';

/**
 * Keeps the app in this browser for the next start without a server. A newer version is offered and never
 * forced: what is being measured stays on screen until the person reloads.
 */
export async function keepForOffline(shell: Shell): Promise<void> {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  try {
    const registration = await navigator.serviceWorker.register('./service-worker.js', { type: 'module' });
    if (registration.waiting !== null) offer(shell, registration.waiting);
    registration.addEventListener('updatefound', () => {
      const coming = registration.installing;
      coming?.addEventListener('statechange', () => {
        // Without a controller this is the first version, and there is nothing to update from.
        if (coming.state === 'installed' && navigator.serviceWorker.controller !== null) offer(shell, coming);
      });
    });
  } catch {
    // A browser that refuses works on as long as the server answers.
  }
}

function offer(shell: Shell, waiting: ServiceWorker): void {
  say(shell, 'A newer Raybend is ready. What is on screen is kept; reload when it suits you.', {
    name: 'Reload now',
    run: () => {
      navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
      waiting.postMessage('take-over');
    },
  });
}
