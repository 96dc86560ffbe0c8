import type { FilmRecord } from '../../../src/case/document.ts';
import { film } from '../../case/samples.ts';

const { spacing: atDetector } = film('any');
/** Millimetres at the hand, so that every length is one of the bone. */
export const spacing = { ...atDetector, plane: 'patient' } as FilmRecord['spacing'];

export const paFilm = film('pa', { view: 'pa', spacing });
