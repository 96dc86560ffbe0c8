import { gzipSync } from 'node:zlib';

/** A file of the built app with its size as it travels, in bytes. */
export interface Weight {
  readonly file: string;
  readonly bytes: number;
}

const IN_PAGE = /(?:src|href)="\.\/(assets\/[^"]+\.(?:js|css))"/g;

/**
 * The page and every script and style sheet it names, compressed: what is fetched before the form can be used. The
 * heaviest first.
 *
 * @param read - Reads a file of the build, by its path from the page.
 */
export async function pageWeight(read: (file: string) => Promise<Uint8Array>): Promise<readonly Weight[]> {
  const page = await read('index.html');
  const named = [...new TextDecoder().decode(page).matchAll(IN_PAGE)].map(([, file]) => file!);
  const weights = [{ file: 'index.html', bytes: gzipSync(page).length }];
  for (const file of named) weights.push({ file, bytes: gzipSync(await read(file)).length });
  return weights.toSorted((one, other) => other.bytes - one.bytes);
}

export const totalBytes = (weights: readonly Weight[]): number =>
  weights.reduce((sum, { bytes }) => sum + bytes, 0);
