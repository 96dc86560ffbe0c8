import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { NOTICES, runtimePackages, thirdPartyPage } from './notices.ts';

const page = readFileSync(NOTICES, 'utf8');

describe('docs/third-party.md', () => {
  it('is what the lockfile and the packages say: npx tsx tests/architecture/notices.ts', () => {
    expect(page).toBe(thirdPartyPage());
  });

  it('names every dependency of package.json with its version there, and none for developing', () => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as Record<
      'dependencies' | 'devDependencies',
      Record<string, string>
    >;
    for (const [name, version] of Object.entries(dependencies))
      expect(page).toContain(`| ${name} | ${version} | `);
    const folders = new Set(runtimePackages());
    expect(Object.keys(devDependencies).filter((name) => folders.has(`node_modules/${name}`))).toEqual([]);
  });

  it('allows only licences that ask for no more than their notice', () => {
    // What each of these asks for: SPDX licence list; all are permissive, OFL for fonts.
    const allowed = /^(MIT|ISC|0BSD|Apache-2\.0|OFL-1\.1|MIT AND Zlib)$/;
    const licences = [...page.matchAll(/^\| \S+ \| \d[^|]* \| ([^|]+) \|/gm)].map(([, licence]) => licence!);
    expect(licences.length).toBeGreaterThan(0);
    expect(licences.filter((licence) => !allowed.test(licence))).toEqual([]);
  });
});
