import axe from 'axe-core';
import type { Page } from 'playwright';

interface Asked {
  /** A part of the page, by selector; the whole page unless it is said. */
  readonly within?: string;
  /** Rules by their ids; all unless they are said. */
  readonly rules?: readonly string[];
}

/**
 * What axe finds against WCAG 2.0 to 2.2, A and AA, and against what it calls best practice. It stays in the page
 * once it is there, since it takes longer to arrive than to look.
 */
export async function violations(page: Page, { within, rules }: Asked = {}): Promise<readonly string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  return page.evaluate(
    async ([part, ids]) => {
      const found = await (window as unknown as { axe: typeof axe }).axe.run(part ?? document, {
        resultTypes: ['violations'],
        ...(ids === null ? {} : { runOnly: { type: 'rule', values: [...ids] } }),
      });
      return found.violations.flatMap(({ id, nodes }) =>
        nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`),
      );
    },
    [within ?? null, rules ?? null] as const,
  );
}
