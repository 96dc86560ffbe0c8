import axe from 'axe-core';
import { act, type ReactNode } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach } from 'vitest';

/** Where panels are shown, each test of a file on a page of its own. */
export interface Mounted {
  readonly host: HTMLElement;
  show(content: ReactNode): void;
  /** The same, with what is done in effects and promises that are kept already. */
  showSettled(content: ReactNode): Promise<void>;
  /** The button of that name, by its label or else its text. */
  button(name: string): HTMLButtonElement;
  /** What axe finds wrong, as sentences. */
  violations(): Promise<readonly string[]>;
}

export function mounted(): Mounted {
  let host: HTMLElement;
  let root: Root;
  beforeEach(() => {
    (globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;
    host = document.createElement('main');
    document.body.append(host);
    root = createRoot(host);
  });
  afterEach(() => {
    act(() => root.unmount());
    host.remove();
  });
  return {
    get host() {
      return host;
    },
    show: (content) => act(() => root.render(content)),
    showSettled: (content) => act(async () => root.render(content)),
    button: (name) =>
      [...host.querySelectorAll('button')].find(
        (one) => one.getAttribute('aria-label') === name || one.textContent === name,
      )!,
    async violations() {
      // A heading of the page stands outside of what is shown here.
      const { violations: found } = await axe.run(host, {
        rules: { 'page-has-heading-one': { enabled: false } },
      });
      return found.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
    },
  };
}
