import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest';
import { page } from 'vitest/browser';
import type { MarkRecord } from '../../src/case/document.ts';
import type { Film } from '../../src/film/film.ts';
import { drawn, sceneOf, standPlate } from './plate-stand.ts';
import { resetScreen, setScreen } from './real-input.ts';

/** For each test a plate with a film and one mark, on a screen of one device pixel to a CSS pixel. */
export function standEach(
  { width, height }: { readonly width: number; readonly height: number },
  film: Film,
  axis: MarkRecord,
): Omit<ReturnType<typeof standPlate>, 'remove'> {
  let stand: ReturnType<typeof standPlate>;
  beforeAll(async () => {
    await page.viewport(width, height);
    await setScreen(width, height, 1);
  });
  afterAll(resetScreen);
  beforeEach(async () => {
    stand = standPlate(width, height);
    stand.plate.setFilm(film, 'a');
    stand.plate.setMarks(sceneOf(axis));
    await drawn();
  });
  afterEach(() => stand.remove());
  return {
    get plate() {
      return stand.plate;
    },
    get host() {
      return stand.host;
    },
    get told() {
      return stand.told;
    },
  };
}
