import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';

export interface Spot {
  readonly column: number;
  readonly row: number;
}

interface Truth {
  readonly columns: number;
  readonly rows: number;
  readonly rays: readonly {
    readonly ray: string;
    readonly headCentre: Spot;
    readonly headRadiusPixels: number;
    readonly projectedAngleDegrees: number;
    readonly proximalAxis: { readonly from: Spot; readonly to: Spot };
    readonly dorsal: { readonly columns: number; readonly rows: number };
  }[];
  readonly fractures: readonly { readonly distalBrokenEnd: Spot }[];
}

/** Truth of the invented film the app starts with: made with it, never measured by the app. */
export const truth = JSON.parse(readFileSync('sample-images/small-neck-lateral.truth.json', 'utf8')) as Truth;
export const ray = truth.rays.find((candidate) => candidate.ray === 'small')!;
export const brokenEnd = truth.fractures[0]!.distalBrokenEnd;

/** A point on the rim of the head, at a turn clockwise from the right. */
export function onRim(turnDegrees: number): Spot {
  const turn = (turnDegrees * Math.PI) / 180;
  return {
    column: ray.headCentre.column + ray.headRadiusPixels * Math.cos(turn),
    row: ray.headCentre.row + ray.headRadiusPixels * Math.sin(turn),
  };
}

export const RIM_TURNS = [250, 340, 70] as const;

export const dorsalSpot: Spot = {
  column: ray.headCentre.column + 120 * ray.dorsal.columns,
  row: ray.headCentre.row + 120 * ray.dorsal.rows,
};

/** Where a film point is on the page while the whole film is shown: fitted and centred in the plate. */
export async function screenOf(
  page: Page,
  spot: Spot,
  film: { readonly columns: number; readonly rows: number } = truth,
): Promise<{ x: number; y: number }> {
  const plate = (await page.locator('.plate__host').first().boundingBox())!;
  const scale = Math.min(plate.width / film.columns, plate.height / film.rows);
  return {
    x: plate.x + plate.width / 2 + (spot.column - film.columns / 2) * scale,
    y: plate.y + plate.height / 2 + (spot.row - film.rows / 2) * scale,
  };
}

/** Places both axes and the dorsal side on the sample film by pointer. */
export async function placeAxes(page: Page): Promise<void> {
  const click = async (spot: Spot) => {
    const { x, y } = await screenOf(page, spot);
    await page.mouse.click(x, y);
  };
  await page.getByRole('button', { name: 'How the proximal axis is drawn' }).click();
  await page.getByRole('option', { name: 'free line' }).click();
  await page.getByRole('button', { name: 'Place proximal axis' }).click();
  await click(ray.proximalAxis.from);
  await click(ray.proximalAxis.to);
  await page.getByRole('button', { name: 'Place distal axis' }).click();
  for (const turn of RIM_TURNS) await click(onRim(turn));
  await click(brokenEnd);
  await page.getByRole('button', { name: 'Place dorsal side' }).click();
  await click(dorsalSpot);
}
