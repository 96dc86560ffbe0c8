/** What of a browser is looked at before the app starts. */
export interface Browser {
  readonly isSecureContext?: boolean;
  readonly Worker?: unknown;
  readonly OffscreenCanvas?: unknown;
  readonly Array: { readonly prototype: object };
}

const NEWER =
  'Use a current version of Firefox, Chrome, Edge or Safari; nothing that is kept on this computer is lost.';

/**
 * Why the app cannot start in this browser, as a sentence with what to do; null: it can. What it can do without
 * (a place to keep films, a service worker, two tabs that speak to each other) is not asked for here.
 */
export function cannotStart(browser: Browser): string | null {
  // First, because it hides others: identifiers and hashes are given only to pages that nobody can have changed.
  if (browser.isSecureContext !== true)
    return 'Raybend was opened over an unprotected connection, where a browser gives no identifiers and no hashes of films. Open it by an address that begins with https, or from this computer itself.';
  // Browsers with this have module workers and container queries too: it came last of the three.
  if (!('toSorted' in browser.Array.prototype))
    return `This browser is older than the language Raybend is written in. ${NEWER}`;
  if (browser.Worker === undefined)
    return `This browser has no workers, in which films are decoded, or they are switched off. ${NEWER}`;
  if (browser.OffscreenCanvas === undefined)
    return `This browser cannot draw a film beside the page (OffscreenCanvas). ${NEWER}`;
  return null;
}
