/** What passes to a page and back: anything JSON can say. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain };

/** A page in a browser that is driven over an open protocol, with the little that the main job needs. */
export interface RemotePage {
  readonly browser: string;
  open(url: string): Promise<void>;
  reload(): Promise<void>;
  /** Runs a function in the page; nothing it closes over goes with it. */
  run<Given extends readonly Plain[], Value>(
    work: (...given: Given) => Value | Promise<Value>,
    ...given: Given
  ): Promise<Value>;
  /** Presses the main button of a mouse at a place in the window, in CSS pixels. */
  click(x: number, y: number): Promise<void>;
  /** Chooses a file of this machine in the file input that a selector finds. */
  chooseFile(selector: string, path: string): Promise<void>;
  /** The folder into which the browser saves what the page hands it. */
  readonly downloads: string;
  close(): Promise<void>;
}

const STEP_MS = 60_000;
const LOOK_AGAIN_MS = 100;

/** Looks until a function says something other than null, undefined or false. Throws, with what was awaited, after a minute. */
export async function until<Value>(
  what: string,
  look: () => Promise<Value | null | undefined | false>,
): Promise<Value> {
  for (const end = performance.now() + STEP_MS; performance.now() < end; ) {
    const seen = await look();
    if (seen !== null && seen !== undefined && seen !== false) return seen;
    await new Promise((later) => setTimeout(later, LOOK_AGAIN_MS));
  }
  throw new Error(`Waited a minute in vain for ${what}.`);
}

/** The source of a call in the page, whose value comes back as JSON in every protocol alike. */
export const callOf = (work: (...given: never[]) => unknown, given: readonly Plain[]): string =>
  `Promise.resolve((${work})(...${JSON.stringify(given)})).then((value) => JSON.stringify(value ?? null))`;

/** Waits for a button, an option or a link by its name or its words, scrolls to it and presses it by pointer. */
export async function press(page: RemotePage, name: string): Promise<void> {
  const spot = await until(`“${name}” to press`, () =>
    page.run((wanted) => {
      const all = [...document.querySelectorAll<HTMLElement>('button, [role="option"], a, label')];
      const wordsOf = (one: Element | null) => one?.getAttribute('aria-label') ?? one?.textContent?.trim();
      const named = (one: HTMLElement) =>
        [
          one,
          ...(one.getAttribute('aria-labelledby') ?? '').split(' ').map((id) => document.getElementById(id)),
        ]
          .map(wordsOf)
          .includes(wanted);
      const found = all.find((one) => named(one) && one.getClientRects().length > 0);
      if (found === undefined || found.matches(':disabled')) return null;
      found.scrollIntoView({ block: 'center' });
      const { x, y, width, height } = found.getBoundingClientRect();
      return { x: x + width / 2, y: y + height / 2 };
    }, name),
  );
  await page.click(spot.x, spot.y);
}

/** Waits until the page shows some words. */
export const shows = (page: RemotePage, words: string): Promise<unknown> =>
  until(`“${words}”`, () => page.run((wanted) => document.body.textContent.includes(wanted), words));
