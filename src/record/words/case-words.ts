import { MOMENT_WORDS } from '../../case/course/order.ts';
import type { FilmRecord, InjuryRecord } from '../../case/document.ts';
import { formatDay, shownInWords } from '../../case/format.ts';
import { shownSide } from '../dicom/modules.ts';

/** What every record says of itself, whatever else it says. */
export const EDUCATION_LINE =
  'Education and a second look only. Not a medical device: the local protocol and a licensed clinician decide.';

/** "Right hand, small finger, neck": the injury as a title. */
export function injuryTitle({ hand, ray, region }: InjuryRecord): string {
  const side = hand === null ? 'Side not said' : hand === 'left' ? 'Left hand' : 'Right hand';
  const bone = ray === null ? 'finger not said' : ray === 'thumb' ? 'thumb' : `${ray} finger`;
  return `${side}, ${bone}${region === null ? '' : `, ${region}`}`;
}

const AGE_WORDS = { adult: 'adult', child: 'child' } as const;

/** "transverse fracture, adult": what a title leaves out; '' where nothing of it is said. */
export const injuryDetail = ({ pattern, ageGroup }: InjuryRecord): string =>
  [
    ...(pattern === null ? [] : [`${pattern} fracture`]),
    ...(ageGroup === null ? [] : [AGE_WORDS[ageGroup]]),
  ].join(', ');

const VIEW_TITLES = { pa: 'PA view', oblique: 'Oblique view', lateral: 'Lateral view' } as const;

/** "Lateral view, right hand (injured hand), day 0 after the injury, after reduction.": a film without its number. */
export function filmSentence(film: FilmRecord, injury: InjuryRecord): string {
  const view = shownInWords(film, VIEW_TITLES);
  const side = shownSide(injury, film.hand);
  const hand = film.hand === 'injured' ? 'injured hand' : 'other hand';
  const day = `${formatDay(film.day)}${film.day === null ? '' : ' after the injury'}`;
  const moment = film.moment === null || film.moment === 'follow-up' ? '' : `, ${MOMENT_WORDS[film.moment]}`;
  const invented = film.invented ? ' Invented film.' : '';
  return `${view}, ${side === null ? hand : `${side} hand (${hand})`}, ${day}${moment}.${invented}`;
}
