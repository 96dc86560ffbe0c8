import { CONSTRUCTIONS_LESSON } from './constructions.ts';
import type { Lesson } from './lesson.ts';
import { LIMITS_BY_FINGER } from './limits-by-finger.ts';
import { MAGNIFICATION } from './magnification.ts';
import { NORMAL_TILT } from './normal-tilt.ts';
import { NOT_ON_THE_FILM } from './not-on-the-film.ts';
import { OBLIQUITY } from './obliquity.ts';
import { SERIAL_FILMS } from './serial-films.ts';
import { TWO_VIEWS } from './two-views.ts';
import { VIEWS } from './views.ts';

/** The built-in lessons, in the order in which they are best read. */
export const LESSONS: readonly Lesson[] = [
  VIEWS,
  CONSTRUCTIONS_LESSON,
  NORMAL_TILT,
  OBLIQUITY,
  MAGNIFICATION,
  TWO_VIEWS,
  LIMITS_BY_FINGER,
  NOT_ON_THE_FILM,
  SERIAL_FILMS,
];
