import { readFile } from 'node:fs/promises';
import { failure, type Result, success } from '../geometry/result.ts';

export interface Unreadable {
  readonly kind: 'unreadable';
  readonly message: string;
}

/** The text of a file; fails with `unreadable`, saying which file and why. */
export async function textOf(path: string): Promise<Result<string, Unreadable>> {
  const bytes = await bytesOf(path);
  return bytes.ok ? success(new TextDecoder().decode(bytes.value)) : bytes;
}

/** The bytes of a file; fails as `textOf` does. */
export async function bytesOf(path: string): Promise<Result<Uint8Array<ArrayBuffer>, Unreadable>> {
  try {
    return success(new Uint8Array(await readFile(path)));
  } catch (problem) {
    const why = problem instanceof Error ? problem.message : String(problem);
    return failure({
      kind: 'unreadable',
      message: `${path} could not be read (${why}). Check the path and try again.`,
    });
  }
}
