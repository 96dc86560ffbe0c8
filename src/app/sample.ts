import otherUrl from '../../sample-images/other-hand-lateral.dcm?url';
import lateralUrl from '../../sample-images/small-neck-lateral.dcm?url';
import obliqueUrl from '../../sample-images/small-neck-oblique.dcm?url';
import paUrl from '../../sample-images/small-neck-pa.dcm?url';
import { emptyCase } from '../case/apply.ts';
import { type CaseId, caseId, type FilmRecord } from '../case/document.ts';
import { injuryOf } from '../case/fixed-records.ts';
import { freshState } from '../case/history.ts';
import { showCase } from './case-file-actions.ts';
import { addFilm } from './films/add-films.ts';
import { inTurn } from './in-turn.ts';
import { caseShown, put, type Shell } from './shell.ts';

const FILMS: readonly { url: string; hand: FilmRecord['hand']; view: FilmRecord['view'] }[] = [
  { url: lateralUrl, hand: 'injured', view: 'lateral' },
  { url: obliqueUrl, hand: 'injured', view: 'oblique' },
  { url: paUrl, hand: 'injured', view: 'pa' },
  { url: otherUrl, hand: 'other', view: 'lateral' },
];

/** Begins the sample case: an invented right hand with a broken small-finger neck, ready to measure. */
export async function openSample(shell: Shell): Promise<void> {
  const id = await inTurn(shell, () => beginSample(shell));
  await addSampleFilms(shell, id);
}

/**
 * The sample case takes the place of the one on screen, still without films.
 *
 * @returns Its id.
 */
export async function beginSample(shell: Shell): Promise<CaseId> {
  const state = freshState(emptyCase(caseId(shell.newId())));
  const whole = { state, unknownFields: {} };
  await shell.keeper.begin(whole);
  showCase(shell, whole);
  put(shell, 'begin the sample case', {
    ...injuryOf(state.document),
    label: 'Sample case',
    hand: 'right',
    ray: 'small',
    region: 'neck',
    pattern: 'transverse',
    ageGroup: 'adult',
  });
  return state.document.id;
}

/** Its films one after another, as long as it is on screen; a film that somebody opens meanwhile stays on the plate. */
export async function addSampleFilms(shell: Shell, id: CaseId): Promise<void> {
  for (const { url, hand, view } of FILMS) {
    if (caseShown(shell) !== id) return;
    const wanted = {
      bytes: () => fetched(url),
      fileName: 'The sample film',
      onto: { hand, day: 0 },
      known: { view, viewFrom: 'file', invented: true },
    } as const;
    await addFilm(shell, wanted, { leavesPlate: true });
  }
}

async function fetched(url: string): Promise<ArrayBuffer> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`the server answered ${answer.status}`);
  return answer.arrayBuffer();
}
