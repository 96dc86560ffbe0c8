import type { RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { placeOf } from '../../case/film-place.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { defaultLight } from '../../film/light.ts';
import { type Result, success } from '../../geometry/result.ts';
import { deidentify, preview, type TreatedAttribute, treated } from '../../record/deidentify.ts';
import { type Dataset, writeDicom } from '../../record/dicom/dicom-write.ts';
import { gspsDataset } from '../../record/dicom/gsps.ts';
import { lateralityOf, type WritingFacts, writtenAt } from '../../record/dicom/modules.ts';
import { secondaryCaptureDataset } from '../../record/dicom/sc.ts';
import { readSource, type SourceFilm } from '../../record/dicom/source.ts';
import { srDataset } from '../../record/dicom/sr.ts';
import { type KeyedHash, uidFromUuid, uidOf } from '../../record/dicom/uids.ts';
import { type RecordError, recordErrorSentence } from '../../record/record-error.ts';
import type { LeavingChoice } from '../../ui/leaving/leaving.ts';
import { currentAssessment } from '../assessment.ts';
import type { Shell } from '../shell.ts';
import { type Made, refused } from './made.ts';
import { decodedFilm } from './pictures.ts';
import { keyedHash } from './secret.ts';

/** A DICOM object that is ready to be written. */
export interface ReadyObject {
  readonly attributes: readonly TreatedAttribute[];
  readonly size: number;
  /** What it leaves out of the case, as sentences. */
  readonly notes: readonly string[];
  /** @param looked - Somebody looked at its picture. */
  write(looked: boolean): Promise<Made<Uint8Array<ArrayBuffer>>>;
}

/**
 * The object that is chosen, about the film on the plate or, for a report, about all films of the case.
 *
 * @param canvas - The snapshot, where it is what leaves.
 */
export async function objectOf(
  shell: Shell,
  { object, identity }: LeavingChoice,
  filmId: RecordId,
  canvas: OffscreenCanvas | null,
): Promise<Made<ReadyObject>> {
  const hash = await keyedHash();
  const { sources, problems } = await sourcesOf(shell);
  const made = await datasetOf(shell, object, filmId, canvas, sources, problems, hash);
  if (!made.ok) return made;
  const notes = object === 'report' ? [...problems.values()] : [];
  return identity === 'matching' ? asItIs(made.value, notes) : withoutPatient(made.value, hash, notes);
}

async function datasetOf(
  shell: Shell,
  object: LeavingChoice['object'],
  filmId: RecordId,
  canvas: OffscreenCanvas | null,
  sources: ReadonlyMap<RecordId, SourceFilm>,
  problems: ReadonlyMap<RecordId, string>,
  hash: KeyedHash,
): Promise<Made<Dataset>> {
  const state = shell.store.getState();
  const { document } = state.caseState;
  const shared = { ...writingFacts(shell), document, assessment: currentAssessment(state) };
  const subject = filmName(shell, filmId);
  if (object === 'report') {
    const trackingUids = {
      injured: await uidOf(hash, `tracking ${document.id} injured`),
      other: await uidOf(hash, `tracking ${document.id} other`),
    };
    const deviceObserverUid = await uidOf(hash, 'device');
    const report = srDataset({ ...shared, sources, trackingUids, deviceObserverUid });
    if (report.ok) return report;
    return refused([recordErrorSentence(report.error, 'The case'), ...problems.values()].join(' '));
  }
  const source = sources.get(filmId);
  if (source === undefined) return refused(problems.get(filmId) ?? recordErrorSentence(NO_FILM, 'The case'));
  if (object === 'capture') {
    if (canvas === null) return refused(recordErrorSentence(NO_FILM, 'The case'));
    const { width: columns, height: rows } = canvas;
    const bytes = canvas.getContext('2d')?.getImageData(0, 0, columns, rows).data ?? new Uint8Array();
    const record = document.records[filmId];
    const laterality = record?.kind === 'film' ? lateralityOf(injuryOf(document), record.hand) : '';
    const picture = { columns, rows, samplesPerPixel: 4, bytes } as const;
    return said(secondaryCaptureDataset({ ...shared, picture, source, laterality }), subject);
  }
  const decoded = await decodedFilm(shell, filmId);
  if (!decoded.ok) return decoded;
  const { film } = decoded.value;
  const view = state.views.get(filmId);
  const shownAs = {
    light: state.lights.get(filmId) ?? defaultLight(film),
    turnDegrees: view?.turn ?? 0,
    mirrored: view?.mirrored ?? false,
  };
  return said(gspsDataset({ ...shared, filmId, film, source, shownAs }), subject);
}

const NO_FILM = { kind: 'no-such-film' } as const;

const said = <Value>(result: Result<Value, RecordError>, subject: string): Made<Value> =>
  result.ok ? result : refused(recordErrorSentence(result.error, subject));

const writingFacts = ({ now }: Shell): WritingFacts => ({
  writtenAt: writtenAt(new Date(now())),
  newUid: () => uidFromUuid(crypto.randomUUID()),
  softwareVersion: __RAYBEND_VERSION__,
});

function filmName({ store }: Shell, id: RecordId): string {
  const films = markedFilms(store.getState().caseState.document);
  return `Film ${films.findIndex(({ film }) => film.id === id) + 1}`;
}

/** The films of the case that DICOM can refer to, and of the others why not. */
export async function sourcesOf(shell: Shell): Promise<{
  readonly sources: ReadonlyMap<RecordId, SourceFilm>;
  readonly problems: ReadonlyMap<RecordId, string>;
}> {
  const sources = new Map<RecordId, SourceFilm>();
  const problems = new Map<RecordId, string>();
  for (const { film } of markedFilms(shell.store.getState().caseState.document)) {
    const source = await sourceOf(shell, film.id);
    if (source.ok) sources.set(film.id, source.value);
    else problems.set(film.id, source.error.sentence);
  }
  return { sources, problems };
}

async function sourceOf(shell: Shell, id: RecordId): Promise<Made<SourceFilm>> {
  const film = shell.store.getState().caseState.document.records[id];
  const name = filmName(shell, id);
  if (film?.kind !== 'film') return refused(recordErrorSentence(NO_FILM, 'The case'));
  if (film.format !== 'dicom') return refused(recordErrorSentence({ kind: 'not-dicom' }, name));
  if (placeOf(film).part !== null) {
    return refused(
      `${name} is a part of a picture, and DICOM points at whole ones. Use the record, the note or the tables, or place the marks on the whole picture.`,
    );
  }
  const bytes = await shell.keeper.filmBytes(film.sha256);
  if (bytes === null) {
    return refused(
      `The file of ${name.toLowerCase()} is not kept on this computer, so nothing can refer to it. Open it again; the record, the note and the tables can leave now.`,
    );
  }
  return said(readSource(new Uint8Array(bytes), placeOf(film).frame), name);
}

function asItIs(dataset: Dataset, notes: readonly string[]): Made<ReadyObject> {
  const written = said(writeDicom(dataset), 'The film');
  if (!written.ok) return written;
  return success({
    attributes: preview(dataset).map((attribute) => ({ ...attribute, fate: 'kept' })),
    size: written.value.length,
    notes,
    write: async () => written,
  });
}

/** The pixels go in when it is written: before that nobody has looked at them. */
async function withoutPatient(
  dataset: Dataset,
  hash: KeyedHash,
  notes: readonly string[],
): Promise<Made<ReadyObject>> {
  const { PixelData, ...head } = dataset;
  const clean = said(await deidentify(head, { hash, pictureLookedAt: false }), 'The film');
  if (!clean.ok) return clean;
  const written = said(writeDicom(clean.value), 'The film');
  if (!written.ok) return written;
  const pixels = PixelData instanceof ArrayBuffer ? { PixelData } : {};
  return success({
    attributes: treated({ ...head, ...pixels }, { ...clean.value, ...pixels }),
    // An element of bytes has a head of twelve (PS3.5 7.1.2).
    size: written.value.length + (PixelData instanceof ArrayBuffer ? PixelData.byteLength + 12 : 0),
    notes,
    write: async (looked) => {
      const whole = said(await deidentify(dataset, { hash, pictureLookedAt: looked }), 'The snapshot');
      return whole.ok ? said(writeDicom(whole.value), 'The snapshot') : whole;
    },
  });
}
