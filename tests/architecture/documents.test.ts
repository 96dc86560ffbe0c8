import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, it } from 'vitest';

const PAGES = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard', '*.md'], {
  encoding: 'utf8',
})
  .split('\n')
  .filter((path) => path !== '' && existsSync(path));

/** Where the links of a page lead within the repository, from its root; anchors are left off. */
function linksOf(page: string): readonly string[] {
  const targets = [...readFileSync(page, 'utf8').matchAll(/\]\(([^)\s]+)\)/g)].map((found) => found[1]!);
  return targets
    .filter((target) => !/^(https?:|#)/.test(target))
    .map((target) => normalize(join(dirname(page), target.replace(/#.*$/, ''))));
}

describe('the documents', () => {
  it('lead nowhere that is not there', () => {
    expect(PAGES.length).toBeGreaterThan(60);
    const links = PAGES.flatMap((page) => linksOf(page).map((target) => `${page} → ${target}`));
    expect(links.length).toBeGreaterThan(50);
    expect(links.filter((link) => !existsSync(link.split(' → ')[1]!))).toEqual([]);
  });

  it('name files and folders that are there', () => {
    const named = PAGES.flatMap((page) =>
      [...readFileSync(page, 'utf8').matchAll(/`((?:src|tests|docs|public|sample-images)\/[\w./-]*)`/g)].map(
        (found) => `${page}: ${found[1]}`,
      ),
    );
    expect(named.length).toBeGreaterThan(50);
    expect(named.filter((one) => !existsSync(one.split(': ')[1]!))).toEqual([]);
  });

  it('are all reached from the README by its links', () => {
    const reached = new Set<string>();
    const follow = (page: string): void => {
      if (reached.has(page) || !existsSync(page)) return;
      reached.add(page);
      if (statSync(page).isFile() && page.endsWith('.md')) linksOf(page).forEach(follow);
    };
    follow('README.md');
    const documents = PAGES.filter((page) => page.startsWith('docs/') && !page.startsWith('docs/decisions/'));
    expect(documents.filter((page) => !reached.has(page))).toEqual([]);
    expect(reached).toContain('docs/decisions/');
  });
});
