import { change, emptyCase, removal } from '../../src/case/apply.ts';
import {
  type CaseRecord,
  caseId,
  type FilmRecord,
  type MarkRecord,
  recordId,
} from '../../src/case/document.ts';
import { injuryOf } from '../../src/case/fixed-records.ts';
import { type Action, act, type CaseState, canRedo, canUndo, freshState } from '../../src/case/history.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { seededRandom } from '../../src/phantom/random.ts';

/** Every step bears the same time, so that a state follows from seed and step number alone. */
export const AT = '2026-03-01T09:30:00.000Z';

/** More would make every comparison slow and find nothing else. */
const MOST_MARKS = 30;
const FILM_EVERY = 12;
const FILM_BYTES = 120_000;

export const startOf = (seed: number): CaseState => freshState(emptyCase(caseId(`case-${seed}`)));

/** Numbers from 0 to 1 that follow from seed and step. */
const numbersOf = (seed: number, step: number): (() => number) => seededRandom(seed, `step ${step}`);

/** The bytes of the film that a step adds, or null when it adds none. */
export function filmBytesOf(seed: number, step: number): Uint8Array<ArrayBuffer> | null {
  if (step % FILM_EVERY !== 1) return null;
  const next = numbersOf(seed, -step);
  const bytes = new Uint8Array(FILM_BYTES);
  // One number in 64 is enough to tell any two films apart, and fast.
  for (let at = 0; at < bytes.length; at += 64) bytes[at] = Math.floor(next() * 256);
  return bytes;
}

/**
 * What step number `step` does to the case as it is then: adds a film, places, moves or removes a mark, gives a label,
 * undoes or redoes.
 *
 * @param sha256 - Of the film that the step adds; see `filmBytesOf`.
 */
export function actionOf(seed: number, step: number, state: CaseState, sha256: string | null): Action {
  const next = numbersOf(seed, step);
  const { document, history } = state;
  const put = (label: string, record: CaseRecord): Action => ({
    kind: 'do',
    transaction: change(document, label, AT, record),
  });
  if (sha256 !== null) return put('open a film', filmRecord(`film-${step}`, sha256));
  const records = Object.values(document.records);
  const films = records.filter((record) => record.kind === 'film');
  const marks = records.filter((record) => record.kind === 'mark');
  const film = films[Math.floor(next() * films.length)];
  const choice = next();
  if (choice < 0.12 && canUndo(history)) return { kind: 'undo', at: AT };
  if (choice < 0.2 && canRedo(history)) return { kind: 'redo', at: AT };
  if (film === undefined || choice < 0.28)
    return put('label the case', { ...injuryOf(document), label: `step ${step}` });
  const mark = marks[Math.floor(next() * marks.length)];
  if (mark !== undefined && (marks.length >= MOST_MARKS || choice < 0.36))
    return { kind: 'do', transaction: removal(document, 'remove a mark', AT, mark.id) };
  if (mark !== undefined && choice < 0.6) return put('move a mark', markRecord(mark.id, mark.filmId, next));
  return put('place a mark', markRecord(recordId(`mark-${step}`), film.id, next));
}

export const markRecord = (
  id: MarkRecord['id'],
  filmId: MarkRecord['filmId'],
  next: () => number,
): MarkRecord => ({
  kind: 'mark',
  id,
  filmId,
  role: 'proximal-axis',
  shape: {
    construction: 'free',
    from: filmPoint(next() * 800, next() * 1000),
    to: filmPoint(next() * 800, next() * 1000),
  },
  provenance: 'placed',
});

export const filmRecord = (id: string, sha256: string): FilmRecord => ({
  kind: 'film',
  id: recordId(id),
  sha256,
  format: 'png',
  columns: 800,
  rows: 1000,
  shows: 'bones',
  hand: 'injured',
  view: 'lateral',
  viewFrom: 'user',
  day: 0,
  moment: null,
  spacing: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
  invented: true,
  lossy: null,
  burnedIn: null,
  stated: { viewPosition: null, laterality: null },
  mirrored: false,
});

/** The states after steps 0, 1, 2, … of a seed, worked out as far as they are asked for. */
export class ScriptedStates {
  private readonly states: CaseState[];

  constructor(
    private readonly seed: number,
    private readonly sha256Of: (bytes: Uint8Array<ArrayBuffer>) => string,
  ) {
    this.states = [startOf(seed)];
  }

  after(steps: number): CaseState {
    for (let step = this.states.length; step <= steps; step += 1) {
      const before = this.states[step - 1]!;
      const bytes = filmBytesOf(this.seed, step);
      const done = act(
        before,
        actionOf(this.seed, step, before, bytes === null ? null : this.sha256Of(bytes)),
      );
      if (!done.ok) throw new Error(`The script itself is wrong at step ${step}: ${done.error.kind}`);
      this.states.push(done.value);
    }
    return this.states[steps]!;
  }
}
