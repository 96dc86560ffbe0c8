import { copyFileSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, inject, it } from 'vitest';
import { inFolder, runTool } from '../outside-tools.ts';
import { firefoxPath, startFirefox } from './other-browsers/firefox.ts';
import { press, type RemotePage, shows, until } from './other-browsers/remote-page.ts';
import { serverToStop } from './other-browsers/server-to-stop.ts';
import { hasWebKit, startWebKit } from './other-browsers/webkit.ts';
import { brokenEnd, dorsalSpot, onRim, RIM_TURNS, ray, type Spot, truth } from './sample-film.ts';

/** Presses on the film that fills the plate, at a film point. */
async function tap(page: RemotePage, spot: Spot): Promise<void> {
  const plate = await page.run(() => {
    const { x, y, width, height } = document.querySelector('.plate__host')!.getBoundingClientRect();
    return { x, y, width, height };
  });
  const scale = Math.min(plate.width / truth.columns, plate.height / truth.rows);
  await page.click(
    plate.x + plate.width / 2 + (spot.column - truth.columns / 2) * scale,
    plate.y + plate.height / 2 + (spot.row - truth.rows / 2) * scale,
  );
}

async function placeAxes(page: RemotePage): Promise<void> {
  await press(page, 'How the proximal axis is drawn');
  await press(page, 'free line');
  await press(page, 'Place proximal axis');
  await tap(page, ray.proximalAxis.from);
  await tap(page, ray.proximalAxis.to);
  await press(page, 'Place distal axis');
  for (const turn of RIM_TURNS) await tap(page, onRim(turn));
  await tap(page, brokenEnd);
  await press(page, 'Place dorsal side');
  await tap(page, dorsalSpot);
}

/** The angulation and its outcome as they are shown, once both are there. */
const shownReading = (page: RemotePage) =>
  until('a reading with its outcome', () =>
    page.run(() => {
      const number = document.querySelector('details[data-quantity="angulation"] .reading__number');
      const outcome = document.querySelector('.outcome__words');
      return number === null || outcome === null
        ? null
        : { number: number.textContent, outcome: outcome.textContent };
    }),
  );

/** ISO/IEC 15948 (PNG), 5.2. */
const PNG_SIGNATURE = [137, 80, 78, 71, 13, 10, 26, 10];

/** The first bytes of the picture that was saved, once so many have been written; null before. */
async function headOfPicture(page: RemotePage): Promise<readonly number[] | null> {
  const name = readdirSync(page.downloads).find((one) => /^raybend snapshot.*\.png$/.test(one));
  const head = name === undefined ? [] : [...readFileSync(join(page.downloads, name)).subarray(0, 8)];
  return head.length < PNG_SIGNATURE.length ? null : head;
}

/** The main job from the first visit to a film opened with the network gone. */
async function mainJob(page: RemotePage): Promise<void> {
  const server = await serverToStop(inject('appUrl'));
  await page.open(server.url);
  await shows(page, 'Saved on this computer only · 4 films');
  await placeAxes(page);
  const reading = await shownReading(page);
  // Within what points on whole pixels of the screen can shift two axes of this length.
  const angle = Number.parseFloat(reading.number ?? '');
  expect(Math.abs(angle - ray.projectedAngleDegrees)).toBeLessThan(3);
  expect(reading.outcome).toMatch(/^(Inside|Cannot tell against|Past) the limit of 50–60°/);

  await press(page, 'Snapshot');
  await until('the picture that leaves', () =>
    page.run(() => document.querySelector('.leaving__preview section') !== null),
  );
  await press(page, 'Save PNG');
  await shows(page, 'Saved as');
  expect(await until('the saved picture', () => headOfPicture(page))).toEqual(PNG_SIGNATURE);
  await press(page, 'Close');

  await page.reload();
  expect(await shownReading(page)).toEqual(reading);

  await until('the service worker', () =>
    page.run(() => navigator.serviceWorker.ready.then(() => navigator.serviceWorker.controller !== null)),
  );
  await server.stop();
  await page.reload();
  expect(await shownReading(page)).toEqual(reading);

  // Its codec comes as WebAssembly in a worker, both from what was kept for a start without the server.
  const film = join(page.downloads, 'film.dcm');
  inFolder((folder) => {
    const made = join(folder, 'film.dcm');
    const { status, err } = runTool('gdcmconv', ['--j2k', 'sample-images/small-neck-lateral.dcm', made]);
    if (status !== 0) throw new Error(`gdcmconv gave ${status}: ${err}`);
    copyFileSync(made, film);
  });
  await press(page, 'New case');
  await shows(page, 'Which bone is broken?');
  await page.chooseFile('input[type=file]', film);
  await shows(page, 'Saved on this computer only · 1 film');
  // The decoded film is on the plate once that is no longer black: bone is near white.
  await until('bone on the plate', () =>
    page.run(() => {
      const plate = document.querySelector<HTMLCanvasElement>('.plate__host canvas');
      if (plate === null) return false;
      const { data } = plate.getContext('2d')!.getImageData(0, 0, plate.width, plate.height);
      return data.some((value, at) => at % 4 === 0 && value > 200);
    }),
  );
}

const OTHERS = [
  { name: 'Firefox', found: firefoxPath() !== null, start: startFirefox },
  { name: 'WebKit', found: hasWebKit(), start: startWebKit },
];

describe('the main job', () => {
  // Each is tried where it is there, and in continuous integration always.
  for (const { name, found, start } of OTHERS)
    it.skipIf(process.env.CI !== 'true' && !found)(`is done in ${name}`, async () => {
      const page = await start();
      try {
        await mainJob(page);
      } finally {
        await page.close();
      }
    });
});
