import type { FilmRecord, InjuryRecord, MarkRecord } from '../../case/document.ts';
import { pictureKey } from '../../case/film-place.ts';
import { injuryOf, settingsOf } from '../../case/fixed-records.ts';
import { markId } from '../../case/marks.ts';
import type { FilmPoint } from '../../geometry/units.ts';
import { put, type Shell } from '../shell.ts';
import type { AppState } from '../state.ts';
import { correctionBy } from './proposal.ts';
import {
  isComplete,
  isCorrected,
  newTrace,
  type TraceTask,
  tapWanted,
  withCorrection,
  withoutLast,
  withTap,
} from './trace-task.ts';

const FRAGMENTS = ['proximal', 'distal'] as const;

/** Why the axes of a film cannot be traced, as a sentence; null: they can. */
export function traceLacks(film: FilmRecord, { ray, region }: InjuryRecord): string | null {
  if (film.hand === 'other') return 'Tracing knows broken bones only; place the axes of this hand by hand.';
  if (ray === null || region === null) return 'Say above which bone is broken, and where.';
  if (ray === 'thumb') return 'Tracing was not set on thumbs; place both axes by hand.';
  if (region !== 'shaft' && region !== 'neck')
    return `Tracing was not set on breaks of the ${region}; place both axes by hand.`;
  return null;
}

/** Asks for the four taps. The marks that are there stay as they are. */
export function beginTrace(shell: Shell): void {
  const { store } = shell;
  const { chosenFilm, caseState } = store.getState();
  const film = chosenFilm === null ? undefined : caseState.document.records[chosenFilm];
  if (film?.kind !== 'film' || traceLacks(film, injuryOf(caseState.document)) !== null) return;
  store.setState({ task: null, repeats: null, trace: newTrace(film.id) });
  endWithItsGround(shell, film);
}

/** A trace ends by itself when something else is begun, or when what it was made on is no longer there. */
function endWithItsGround({ store }: Shell, film: FilmRecord): void {
  const { region } = injuryOf(store.getState().caseState.document);
  const stands = ({ chosenFilm, task, repeats, place, caseState }: AppState): boolean =>
    place === 'bench' &&
    chosenFilm === film.id &&
    task === null &&
    repeats === null &&
    caseState.document.records[film.id] === film &&
    injuryOf(caseState.document).region === region;
  const leave = store.subscribe((state) => {
    if (state.trace !== null && stands(state)) return;
    leave();
    if (state.trace !== null) store.setState({ trace: null });
  });
}

/** The next tap from the plate; the fourth starts the search, and so does the second of a bracket. */
export function takeTap(shell: Shell, point: FilmPoint): void {
  const { trace } = shell.store.getState();
  if (trace === null || tapWanted(trace) === null) return;
  goOn(shell, withTap(trace, point));
}

/** A point of a found outline was put elsewhere: the film is searched again with the outline through it. */
export function moveHold(shell: Shell, key: string, at: FilmPoint): void {
  const { trace } = shell.store.getState();
  if (trace === null || trace.found === null) return;
  const by = correctionBy(trace.found.bone, key, at);
  if (by !== null) goOn(shell, withCorrection(trace, by.correction, by.instead));
}

/** Asks for both edges of the bone at one level. */
export function beginBracket({ store }: Shell): void {
  const { trace } = store.getState();
  if (trace !== null && isComplete(trace)) store.setState({ trace: { ...trace, bracketing: [] } });
}

export function stepBackTrace(shell: Shell): void {
  const { trace } = shell.store.getState();
  const before = trace === null ? null : withoutLast(trace);
  if (before === null) refuseTrace(shell);
  else goOn(shell, before);
}

/** Takes back what is being asked or searched for. A finding stays until it is accepted or refused. */
export function stopTrace({ store }: Shell): void {
  const { trace } = store.getState();
  if (trace === null) return;
  if (trace.bracketing !== null) store.setState({ trace: { ...trace, bracketing: null } });
  else if (trace.running || trace.found === null) store.setState({ trace: null });
}

export function refuseTrace({ store }: Shell): void {
  store.setState({ trace: null });
}

/** Makes the proposal the film's two axes, as one undoable action. */
export function acceptTrace(shell: Shell): void {
  const { trace } = shell.store.getState();
  if (trace === null || trace.found === null || trace.running) return;
  const { bone } = trace.found;
  const marks = FRAGMENTS.map((fragment): MarkRecord => {
    const role = `${fragment}-axis` as const;
    const { shape, directionUncertaintyDegrees } = bone[fragment];
    const mark = { kind: 'mark', id: markId(trace.filmId, role), filmId: trace.filmId, role, shape } as const;
    return isCorrected(trace, fragment)
      ? { ...mark, provenance: 'traced-and-corrected' }
      : { ...mark, provenance: 'traced', tracing: { directionUncertaintyDegrees, basis: bone.basis } };
  });
  shell.store.setState({ trace: null });
  put(shell, 'accept the traced axes', ...marks);
}

/** Shows the task, and has the film searched if nothing more is asked for. */
function goOn(shell: Shell, next: TraceTask): void {
  const running = isComplete(next);
  const task = { ...next, running };
  shell.store.setState({ trace: task });
  if (running) void search(shell, task);
}

async function search({ store }: Shell, asked: TraceTask): Promise<void> {
  const isWanted = () => store.getState().trace === asked;
  const stop = new AbortController();
  const leave = store.subscribe(() => {
    if (!isWanted()) stop.abort();
  });
  const answer = await answerTo(store.getState(), asked, stop.signal);
  leave();
  if (isWanted()) store.setState({ trace: { ...asked, ...answer, running: false } });
}

async function answerTo(
  { caseState: { document }, films }: AppState,
  asked: TraceTask,
  stop: AbortSignal,
): Promise<Pick<TraceTask, 'found' | 'failed'>> {
  const record = document.records[asked.filmId];
  const film = record?.kind === 'film' ? films.get(pictureKey(record)) : undefined;
  if (record?.kind !== 'film' || film === undefined)
    return { found: null, failed: 'The film is not open any more. Choose it again and trace anew.' };
  try {
    const { runTrace, traceSite } = await import('./run-trace.ts');
    const site = traceSite(injuryOf(document).region);
    if (site === null) return { found: null, failed: 'Say above whether the neck or the shaft is broken.' };
    const { placingErrorMm } = settingsOf(document);
    return await runTrace(asked, { film, record, site, placingErrorMm }, stop);
  } catch {
    const failed = 'The tracer could not be fetched. Open the page again while its server can be reached.';
    return { found: null, failed };
  }
}
