import type { RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { reasonOf, success } from '../../geometry/result.ts';
import { noteText } from '../../record/note.ts';
import type { PdfFile } from '../../record/pdf/page.ts';
import { measureWithCanvas, snapshotPng } from '../../record/snapshot/raster.ts';
import { snapshotSvg } from '../../record/snapshot/svg.ts';
import { csvOf, tablesJson, tablesOf, writtenComparisons, writtenReadings } from '../../record/table.ts';
import {
  type Covered,
  filmsShown,
  type Leaving,
  type LeavingActions,
  type LeavingChoice,
  type Prepared,
} from '../../ui/leaving/leaving.ts';
import { currentAssessment } from '../assessment.ts';
import { download } from '../download.ts';
import { pictureOf } from '../films/thumbnail.ts';
import type { Shell } from '../shell.ts';
import { type Made, refused } from './made.ts';
import { decodedFilm, drawnSnapshot, plannedSnapshot, textOn } from './pictures.ts';
import { keyedHash } from './secret.ts';

/** Longest side of the still picture that covers are drawn on. */
const STILL_SIDE = 1600;

/** What the sheet asks for, made from the case on screen. */
export function leavingActions(shell: Shell): LeavingActions {
  return {
    prepare: (choice, covered) => prepared(shell, choice, covered),
    findText: (filmId) => textOn(shell, filmId),
    still: async (filmId) => {
      const decoded = await decodedFilm(shell, filmId);
      if (!decoded.ok) return null;
      const { film } = decoded.value;
      return { url: await pictureOf(film, STILL_SIDE), columns: film.columns, rows: film.rows };
    },
  };
}

async function prepared(shell: Shell, choice: LeavingChoice, covered: Covered): Promise<Prepared> {
  try {
    const made = await leavingOf(shell, choice, covered);
    return made.ok ? { ready: true, leaving: made.value } : { ready: false, sentence: made.error.sentence };
  } catch (thrown) {
    const why = reasonOf(thrown);
    return {
      ready: false,
      sentence: `This could not be made (${why}). Reload the page and try again; the case file can leave now.`,
    };
  }
}

function leavingOf(shell: Shell, choice: LeavingChoice, covered: Covered): Promise<Made<Leaving>> {
  switch (choice.kind) {
    case 'snapshot':
      return snapshot(shell, choice, covered);
    case 'record':
      return record(shell, choice, covered);
    case 'patient':
      return patientSheet(shell, choice);
    case 'note':
      return note(shell);
    case 'table':
      return table(shell, choice);
    case 'object':
      return dicomObject(shell, choice, covered);
  }
}

async function snapshot(
  shell: Shell,
  { picture, format }: LeavingChoice,
  covered: Covered,
): Promise<Made<Leaving>> {
  const planned = await plannedSnapshot(shell, picture, covered);
  if (!planned.ok) return planned;
  const { plan, pictures } = planned.value;
  const name = `raybend snapshot${dayOf(shell, picture.films)}.${format}`;
  if (format === 'svg') {
    const svg = new Blob([snapshotSvg(plan, pictures, measureWithCanvas())], { type: 'image/svg+xml' });
    return success(pictureLeaving(svg, plan, name));
  }
  const canvas = drawnSnapshot(planned.value);
  if (!canvas.ok) return canvas;
  const png = new Blob([await snapshotPng(canvas.value, plan)], { type: 'image/png' });
  return success(pictureLeaving(png, plan, name));
}

function pictureLeaving(
  blob: Blob,
  { width, height }: { readonly width: number; readonly height: number },
  name: string,
): Leaving {
  const url = URL.createObjectURL(blob);
  return {
    ...fileLeaving(name, blob),
    preview: { kind: 'picture', picture: { url, width, height } },
    release: () => URL.revokeObjectURL(url),
  };
}

/** What is saved as a file, without its preview. */
const fileLeaving = (name: string, blob: Blob) => ({
  verb: `Save ${name.slice(name.lastIndexOf('.') + 1).toUpperCase()}`,
  file: { name, bytes: blob.size },
  carryOut: async () => {
    download(name, blob);
    return `Saved as “${name}”.`;
  },
  release: () => undefined,
});

/** The day of the one film, since the injury; nothing of the film's own file. */
function dayOf({ store }: Shell, films: readonly RecordId[]): string {
  const [only, second] = films;
  const film = only === undefined ? undefined : store.getState().caseState.document.records[only];
  return second !== undefined || film?.kind !== 'film' || film.day === null ? '' : ` day ${film.day}`;
}

async function record(shell: Shell, choice: LeavingChoice, covered: Covered): Promise<Made<Leaving>> {
  const { chosenFilm, caseState } = shell.store.getState();
  const { recordOf } = await import('./pages.tsx');
  if (!choice.withPicture || chosenFilm === null) {
    return pagesLeaving(await recordOf(shell, choice, null), null, 'raybend record.pdf');
  }
  const films = filmsShown(choice, chosenFilm);
  const planned = await plannedSnapshot(
    shell,
    { ...choice.picture, films, marks: true, labels: true, words: false, small: true, ground: 'white' },
    covered,
  );
  if (!planned.ok) return planned;
  const canvas = drawnSnapshot(planned.value);
  if (!canvas.ok) return refused(`${canvas.error.sentence} The record can be saved without the film on it.`);
  const png = await snapshotPng(canvas.value, { pixelsPerMm: null });
  const all = markedFilms(caseState.document);
  const filmNumbers = films.map((id) => all.findIndex(({ film }) => film.id === id) + 1);
  return pagesLeaving(await recordOf(shell, choice, { png, filmNumbers }), png, 'raybend record.pdf');
}

async function patientSheet(shell: Shell, choice: LeavingChoice): Promise<Made<Leaving>> {
  const { patientSheetOf } = await import('./pages.tsx');
  return pagesLeaving(await patientSheetOf(shell, choice), null, 'raybend patient sheet.pdf');
}

async function pagesLeaving(
  made: Made<PdfFile>,
  png: Uint8Array<ArrayBuffer> | null,
  name: string,
): Promise<Made<Leaving>> {
  if (!made.ok) return made;
  const { pageViews } = await import('./pages.tsx');
  const url = png === null ? null : URL.createObjectURL(new Blob([png], { type: 'image/png' }));
  return success({
    ...fileLeaving(name, new Blob([made.value.bytes], { type: 'application/pdf' })),
    preview: { kind: 'pages', pages: pageViews(made.value, url) },
    release: () => {
      if (url !== null) URL.revokeObjectURL(url);
    },
  });
}

async function note({ store }: Shell): Promise<Made<Leaving>> {
  const state = store.getState();
  const { document } = state.caseState;
  const text = noteText(document, currentAssessment(state), __RAYBEND_VERSION__);
  if (!text.ok) {
    return refused(
      'There is no reading to write down yet. Place both axes on a film; the record and the snapshot can leave without one.',
    );
  }
  return success({
    preview: { kind: 'text', text: text.value },
    verb: 'Copy',
    file: null,
    carryOut: async () => {
      try {
        await navigator.clipboard.writeText(text.value);
        return 'Copied. Paste it where it belongs.';
      } catch {
        return 'This browser did not allow copying. Select the text above and copy it by hand.';
      }
    },
    release: () => undefined,
  });
}

const TABLE_FILES = {
  readings: { name: 'raybend readings.csv', type: 'text/csv' },
  comparisons: { name: 'raybend limits.csv', type: 'text/csv' },
  json: { name: 'raybend readings.json', type: 'application/json' },
} as const;

async function table({ store }: Shell, choice: LeavingChoice): Promise<Made<Leaving>> {
  const state = store.getState();
  const { document } = state.caseState;
  const tables = await tablesOf([{ document, assessment: currentAssessment(state) }], {
    hash: await keyedHash(),
    softwareVersion: __RAYBEND_VERSION__,
  });
  const { name, type } = TABLE_FILES[choice.table];
  const file = (text: string) => fileLeaving(name, new Blob([text], { type }));
  if (choice.table === 'json') {
    const text = tablesJson(tables);
    return success({ ...file(text), preview: { kind: 'text', text } });
  }
  const written = choice.table === 'readings' ? writtenReadings(tables) : writtenComparisons(tables);
  return success({ ...file(csvOf(written)), preview: { kind: 'table', ...written } });
}

const OBJECT_FILES = {
  report: 'raybend report.dcm',
  presentation: 'raybend presentation.dcm',
  capture: 'raybend picture.dcm',
} as const;

async function dicomObject(shell: Shell, choice: LeavingChoice, covered: Covered): Promise<Made<Leaving>> {
  const { chosenFilm } = shell.store.getState();
  if (chosenFilm === null) {
    return refused('There is no film on the plate for a DICOM object to refer to. Open a DICOM film first.');
  }
  const { objectOf } = await import('./objects.ts');
  let canvas: OffscreenCanvas | null = null;
  if (choice.object === 'capture') {
    const planned = await plannedSnapshot(shell, { ...choice.picture, films: [chosenFilm] }, covered);
    if (!planned.ok) return planned;
    const drawn = drawnSnapshot(planned.value);
    if (!drawn.ok) return drawn;
    canvas = drawn.value;
  }
  const made = await objectOf(shell, choice, chosenFilm, canvas);
  if (!made.ok) return made;
  const { attributes, size, notes, write } = made.value;
  const url = canvas === null ? null : URL.createObjectURL(await canvas.convertToBlob());
  const name = OBJECT_FILES[choice.object];
  return success({
    preview: {
      kind: 'object',
      attributes,
      notes,
      picture: url === null || canvas === null ? null : { url, width: canvas.width, height: canvas.height },
    },
    verb: choice.identity === 'matching' ? 'Save with the patient’s name' : 'Save DICOM',
    file: { name, bytes: size },
    carryOut: async (looked) => {
      const written = await write(looked);
      if (!written.ok) return written.error.sentence;
      download(name, new Blob([written.value], { type: 'application/dicom' }));
      return `Saved as “${name}”.`;
    },
    release: () => {
      if (url !== null) URL.revokeObjectURL(url);
    },
  });
}
