import { pictureKey } from '../case/film-place.ts';
import { defaultLight } from '../film/light.ts';
import { filmPicture } from '../record/snapshot/film-picture.ts';
import { planSnapshot, snapshotErrorSentence } from '../record/snapshot/plan.ts';
import { measureWithCanvas, snapshotPng } from '../record/snapshot/raster.ts';
import { snapshotSvg } from '../record/snapshot/svg.ts';
import { currentAssessment } from './assessment.ts';
import { download } from './download.ts';
import { type Shell, say } from './shell.ts';

/** Saves the film shown with its marks, readings and cautions; its name says nothing of the film's file. */
export async function saveSnapshot(shell: Shell, format: 'png' | 'svg'): Promise<void> {
  const { caseState, chosenFilm, films, lights } = shell.store.getState();
  const record = chosenFilm === null ? undefined : caseState.document.records[chosenFilm];
  const film = record?.kind === 'film' ? films.get(pictureKey(record)) : undefined;
  if (record?.kind !== 'film' || film === undefined) {
    say(shell, 'No snapshot was made: there is no film on the plate. Open its file and try again.');
    return;
  }
  await document.fonts.ready;
  const planned = planSnapshot(
    caseState.document,
    currentAssessment(shell.store.getState()),
    record.id,
    measureWithCanvas(),
  );
  if (!planned.ok) {
    say(shell, snapshotErrorSentence(planned.error));
    return;
  }
  const picture = filmPicture(film, lights.get(record.id) ?? defaultLight(film));
  const day = record.day === null ? '' : ` day ${record.day}`;
  if (format === 'svg') {
    const svg = snapshotSvg(planned.value, await pngAddress(picture));
    download(`raybend snapshot${day}.svg`, new Blob([svg], { type: 'image/svg+xml' }));
    return;
  }
  const drawn = await snapshotPng(planned.value, picture);
  if (drawn.ok) download(`raybend snapshot${day}.png`, drawn.value);
  else say(shell, snapshotErrorSentence(drawn.error));
}

/** The picture as a `data:` address, so that the SVG stands alone. */
async function pngAddress(picture: ImageData): Promise<string> {
  const canvas = new OffscreenCanvas(picture.width, picture.height);
  canvas.getContext('2d')!.putImageData(picture, 0, 0);
  const blob = await canvas.convertToBlob({ type: 'image/png' });
  return new Promise((resolve) => {
    const reader = new FileReader();
    reader.onload = () => resolve(reader.result as string);
    reader.readAsDataURL(blob);
  });
}
