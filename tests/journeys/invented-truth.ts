import type { Page } from 'playwright';
import type { Exercise } from '../../src/classroom/exercise.ts';
import { truthOfPlan } from '../../src/phantom/invent.ts';
import type { FilmTruth, RayTruth } from '../../src/phantom/truth.ts';

export interface Spot {
  readonly column: number;
  readonly row: number;
}

/** Truth of a film of an exercise, worked out here from its spec and seed; the page is never asked for it. */
export const truthOfFilm = ({ films }: Exercise, index = 0): FilmTruth => {
  const { spec, filmSeed } = films[index] ?? films[0];
  return truthOfPlan({ spec, filmSeed, previewScale: 1 });
};

export const boneOf = (truth: FilmTruth, ray: string): RayTruth => truth.rays.find((one) => one.ray === ray)!;

/** A point of the rim of the head, by its direction as displayed: 0 to the right, 90 down. */
export function onRim({ headCentre, headRadiusPixels }: RayTruth, turnDegrees: number): Spot {
  const turn = (turnDegrees * Math.PI) / 180;
  return {
    column: headCentre.column + headRadiusPixels * Math.cos(turn),
    row: headCentre.row + headRadiusPixels * Math.sin(turn),
  };
}

/** Clicks where a film point is while the whole film is shown: fitted and centred in the plate. */
export async function clickOnFilm(page: Page, { columns, rows }: FilmTruth, spot: Spot): Promise<void> {
  const plate = (await page.locator('.plate__host').boundingBox())!;
  const scale = Math.min(plate.width / columns, plate.height / rows);
  await page.mouse.click(
    plate.x + plate.width / 2 + (spot.column - columns / 2) * scale,
    plate.y + plate.height / 2 + (spot.row - rows / 2) * scale,
  );
}

/** Places an axis as a free line, by its line on the worksheet. */
export async function placeFree(
  page: Page,
  truth: FilmTruth,
  which: 'proximal' | 'distal',
  [from, to]: readonly [Spot, Spot],
): Promise<void> {
  await page.getByRole('button', { name: `How the ${which} axis is drawn` }).click();
  await page.getByRole('option', { name: 'free line' }).click();
  await page.getByRole('button', { name: `Place ${which} axis` }).click();
  await clickOnFilm(page, truth, from);
  await clickOnFilm(page, truth, to);
}
