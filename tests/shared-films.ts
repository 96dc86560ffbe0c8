import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';

/**
 * Real radiographs that are not part of this repository: a folder named by `RAYBEND_FILMS`, else
 * `shared/films` beside the repository. Null when neither is there; a test that needs them then says so
 * by failing in continuous integration and by its name elsewhere.
 */
export function sharedFilms(...parts: string[]): string | null {
  const root = process.env.RAYBEND_FILMS ?? resolve(import.meta.dirname, '../../shared/films');
  return existsSync(root) ? join(root, ...parts) : null;
}
