import { filmsKeepingFinger } from '../case/finger.ts';
import { examinationOf, injuryOf, settingsOf } from '../case/fixed-records.ts';
import { EXAMINATION_CHECKS } from '../tolerance/checks.ts';
import type { BenchActions } from '../ui/actions.ts';
import { showBeside, workOnSecond } from './beside.ts';
import { newCase, saveCaseFile } from './case-file-actions.ts';
import { chooseFilm, removeFilm } from './films/film-actions.ts';
import { openFiles } from './open-files.ts';
import { addPoint, place, removeMark, stepBackPlacing, stopPlacing } from './placing-actions.ts';
import { adoptRepeats, beginRepeats, stopRepeats, takeOwnPlacingError } from './repeats/repeats.ts';
import { openSample } from './sample.ts';
import { perform, put, type Shell } from './shell.ts';
import {
  acceptTrace,
  beginBracket,
  beginTrace,
  refuseTrace,
  stepBackTrace,
  stopTrace,
} from './tracing/trace-actions.ts';

/** The panels' requests, carried out on the shell. */
export function benchActions(shell: Shell): BenchActions {
  const document = () => shell.store.getState().caseState.document;
  return {
    setInjury: (patch, label) => {
      const films = patch.ray === undefined ? [] : filmsKeepingFinger(document(), patch.ray);
      put(shell, label, { ...injuryOf(document()), ...patch }, ...films);
    },
    setSettings: (patch, label) => put(shell, label, { ...settingsOf(document()), ...patch }),
    setFilm: (filmId, patch, label) => {
      const film = document().records[filmId];
      if (film?.kind === 'film') put(shell, label, { ...film, ...patch });
    },
    replaceFilm: (film, label) => put(shell, label, film),
    answer: (checkId, answer) => {
      const examination = examinationOf(document());
      const { [checkId]: _, ...others } = examination.answers;
      const answers = answer === null ? others : { ...others, [checkId]: answer };
      const question = EXAMINATION_CHECKS.find((check) => check.id === checkId)?.question ?? checkId;
      put(shell, `answer “${question}”`, { ...examination, answers });
    },
    place: (role, construction) => place(shell, role, construction),
    stopPlacing: () => stopPlacing(shell),
    stepBackPlacing: () => stepBackPlacing(shell),
    addPoint: (markId) => addPoint(shell, markId),
    removeMark: (markId) => removeMark(shell, markId),
    beginTrace: () => beginTrace(shell),
    stopTrace: () => stopTrace(shell),
    stepBackTrace: () => stepBackTrace(shell),
    bracketTrace: () => beginBracket(shell),
    acceptTrace: () => acceptTrace(shell),
    refuseTrace: () => refuseTrace(shell),
    beginRepeats: () => beginRepeats(shell),
    stopRepeats: () => stopRepeats(shell),
    adoptRepeats: (inNewCases) => adoptRepeats(shell, inNewCases),
    showBeside: (filmId) => showBeside(shell, filmId),
    workOnSecond: () => workOnSecond(shell),
    chooseFilm: (filmId) => chooseFilm(shell, filmId),
    removeFilm: (filmId) => removeFilm(shell, filmId),
    openFiles: (files, onto) => void openFiles(shell, files, onto),
    saveCaseFile: (withFilms) => void saveCaseFile(shell, withFilms),
    openSample: () => void openSample(shell).then(() => takeOwnPlacingError(shell)),
    newCase: () => void newCase(shell).then(() => takeOwnPlacingError(shell)),
    showKeys: () => shell.store.setState({ keysShown: true }),
    undo: () => perform(shell, { kind: 'undo', at: shell.now() }),
    redo: () => perform(shell, { kind: 'redo', at: shell.now() }),
  };
}
