import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { cruise, type ICruiseResult, type IForbiddenRuleType } from 'dependency-cruiser';
import { describe, expect, it } from 'vitest';
import { type Layer, MAY_IMPORT, PACKAGE_HOME } from './layers.ts';
import { drawLayers, pictureIn } from './picture.ts';

const layers = Object.keys(MAY_IMPORT) as Layer[];

function rulesUnder(root: string): IForbiddenRuleType[] {
  const layerRules = layers.map((layer) => ({
    name: `${layer}-imports-only-what-the-table-allows`,
    comment: `Move the code down to a layer both may import, or pass the value in. See DEVELOPERS.md.`,
    severity: 'error' as const,
    from: { path: `^${root}/${layer}/` },
    to: { path: `^${root}/`, pathNot: `^${root}/(${[layer, ...MAY_IMPORT[layer]].join('|')})/` },
  }));
  const packageRules = Object.entries(PACKAGE_HOME).map(([name, homes]) => ({
    name: `${name}-stays-in-${homes.join('-and-')}`,
    comment: 'One layer owns each heavy package, so that replacing it touches one folder.',
    severity: 'error' as const,
    from: { path: `^${root}/`, pathNot: `^${root}/(${homes.join('|')})/` },
    to: { path: `node_modules/${name}(/|$)` },
  }));
  return [
    ...layerRules,
    ...packageRules,
    {
      name: 'no-cycles',
      comment: 'Two files that need each other are one idea, or hide a third: split it out.',
      severity: 'error',
      from: { path: `^${root}/` },
      to: { circular: true },
    },
    {
      name: 'no-tests-in-src',
      comment: 'Tests may import the product, never the reverse.',
      severity: 'error',
      from: { path: `^${root}/` },
      to: { path: '^tests/', pathNot: `^${root}/` },
    },
  ];
}

async function read(root: string): Promise<ICruiseResult> {
  const { output } = await cruise([root], {
    validate: true,
    ruleSet: { forbidden: rulesUnder(root) },
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
  });
  return output as ICruiseResult;
}

const codeFiles = (root: string) =>
  readdirSync(root, { recursive: true, encoding: 'utf8' }).filter(
    (path) => /\.tsx?$/.test(path) && !path.endsWith('.d.ts'),
  );

describe('layers', () => {
  it('holds in src, and every file was read', async () => {
    const { modules, summary } = await read('src');
    const seen = modules.filter((module) => /^src\/.*(?<!\.d)\.tsx?$/.test(module.source));
    expect(seen.map((module) => module.source).sort()).toEqual(
      codeFiles('src')
        .map((path) => join('src', path))
        .sort(),
    );
    expect(summary.violations.map((v) => `${v.rule.name}: ${v.from} -> ${v.to}`)).toEqual([]);
  }, 120_000);

  it('reports a violation seeded in a fixture, so that the net itself is tested', async () => {
    const { summary } = await read('tests/architecture/fixture');
    const names = summary.violations.map((violation) => violation.rule.name);
    expect(names).toContain('geometry-imports-only-what-the-table-allows');
    expect(names).toContain('no-cycles');
  }, 60_000);

  it('is drawn in DEVELOPERS.md as it is', async () => {
    expect(pictureIn(readFileSync('DEVELOPERS.md', 'utf8'))).toBe(await drawLayers());
  }, 120_000);

  it('gives each layer a tsconfig whose references equal its row', () => {
    for (const layer of layers) {
      const config = JSON.parse(readFileSync(`src/${layer}/tsconfig.json`, 'utf8')) as {
        references: { path: string }[];
      };
      expect(
        config.references.map((reference) => reference.path.replace('../', '')),
        layer,
      ).toEqual(MAY_IMPORT[layer]);
    }
  });
});
