import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { type InventedCrop, inventCrop } from './invented-crop.ts';
import { type Dressing, type PlannedFilm, plannedFilm, type Setting } from './invented-set.ts';

/** Draws a film of a set, or takes it from the folder where it was kept the last time. */
export function cropOf(
  setting: Setting,
  index: number,
  folder: string | null,
  dressing: Dressing = 'none',
): { readonly planned: PlannedFilm; readonly crop: InventedCrop } {
  const planned = plannedFilm(setting, index, dressing);
  const file =
    folder === null
      ? null
      : join(folder, `${setting}-${index}${dressing === 'none' ? '' : `-${dressing}`}.bin`);
  if (file !== null && existsSync(file)) {
    return { planned, crop: deserialize(readFileSync(file)) as InventedCrop };
  }
  const crop = inventCrop(planned.spec, planned.filmSeed, planned.ray);
  if (folder !== null && file !== null) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(file, serialize(crop));
  }
  return { planned, crop };
}
