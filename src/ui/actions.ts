import type { FilmRecord, InjuryRecord, MarkRole, RecordId, SettingsRecord } from '../case/document.ts';
import type { ShapeConstruction } from '../case/roles.ts';

/** What the panels can ask for. The app performs it; a panel never changes the case itself. */
export interface BenchActions {
  setInjury(patch: Partial<Omit<InjuryRecord, 'kind' | 'id'>>, label: string): void;
  setFilm(filmId: RecordId, patch: Partial<Omit<FilmRecord, 'kind' | 'id'>>, label: string): void;
  /** The film's record as a whole, where a field goes away. */
  replaceFilm(film: FilmRecord, label: string): void;
  setSettings(patch: Partial<Omit<SettingsRecord, 'kind' | 'id'>>, label: string): void;
  /** null takes the answer back: the check counts as not made. */
  answer(checkId: string, answer: 'yes' | 'no' | null): void;
  place(role: MarkRole, construction: ShapeConstruction): void;
  stopPlacing(): void;
  stepBackPlacing(): void;
  /** Adds a level or a rim point to a mark that can take one, by placing it. */
  addPoint(markId: RecordId): void;
  removeMark(markId: RecordId): void;
  /** Asks for four taps and has both axes traced; the case does not change before they are accepted. */
  beginTrace(): void;
  /** Ends the taps or the search; a finding stays until it is accepted or refused. */
  stopTrace(): void;
  stepBackTrace(): void;
  /** Asks for both edges of the bone at one level, where bones overlap. */
  bracketTrace(): void;
  acceptTrace(): void;
  refuseTrace(): void;
  /** Hides the marks and asks for one axis a few times, for the person's own placing error. */
  beginRepeats(): void;
  stopRepeats(): void;
  /** Uses what the repeats gave, in this case and, if asked for, in those begun later in this browser. */
  adoptRepeats(inNewCases: boolean): void;
  chooseFilm(filmId: RecordId): void;
  /** Shows a second film beside the chosen one; null takes it away. */
  showBeside(filmId: RecordId | null): void;
  workOnSecond(): void;
  removeFilm(filmId: RecordId): void;
  openFiles(
    files: readonly File[] | DataTransfer,
    onto: { hand: FilmRecord['hand']; day: number | null },
  ): void;
  saveCaseFile(withFilms: boolean): void;
  openSample(): void;
  newCase(): void;
  /** Opens the page of keys. */
  showKeys(): void;
  undo(): void;
  redo(): void;
}
