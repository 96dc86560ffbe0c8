import { readFileSync, writeFileSync } from 'node:fs';
import { cruise, type ICruiseResult } from 'dependency-cruiser';

/**
 * The picture of the layers in DEVELOPERS.md, drawn from the real imports.
 * `npx tsx tests/architecture/picture.ts` puts it in; a test says when it has gone stale.
 */
const FILE = 'DEVELOPERS.md';
const BEGIN = '<!-- layers: drawn from the imports by tests/architecture/picture.ts -->';
const END = '<!-- end of layers -->';

const layerOf = (path: string): string | undefined => /^src\/([^/]+)\//.exec(path)?.[1];

/** A Mermaid graph of which layer imports which. */
export async function drawLayers(): Promise<string> {
  const { output } = await cruise(['src'], {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
  });
  const edges = new Set<string>();
  for (const { source, dependencies } of (output as ICruiseResult).modules) {
    const from = layerOf(source);
    for (const { resolved } of dependencies) {
      const to = layerOf(resolved);
      if (from !== undefined && to !== undefined && from !== to) edges.add(`  ${from} --> ${to}`);
    }
  }
  return ['```mermaid', 'graph LR', ...[...edges].sort(), '```'].join('\n');
}

export function pictureIn(text: string): string {
  return text.slice(text.indexOf(BEGIN) + BEGIN.length, text.indexOf(END)).trim();
}

if (process.argv[1]?.endsWith('picture.ts')) {
  const text = readFileSync(FILE, 'utf8');
  const before = text.slice(0, text.indexOf(BEGIN) + BEGIN.length);
  writeFileSync(FILE, `${before}\n${await drawLayers()}\n${text.slice(text.indexOf(END))}`);
}
