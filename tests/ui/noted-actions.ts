import type { BenchActions } from '../../src/ui/actions.ts';

/** Actions that note what was asked of them. */
export const noted = () => {
  const asked: [string, ...unknown[]][] = [];
  const actions = new Proxy({} as BenchActions, {
    get:
      (_, name) =>
      (...given: unknown[]) =>
        asked.push([String(name), ...given]),
  });
  return { actions, asked };
};
