import { between, seededRandom } from '../phantom/random.ts';
import type { Asked, FilmSet, SetFilm } from './film-set.ts';
import { type Level, randomFilm } from './levels.ts';

/** A film of a level as a film of a set. The same seed gives the same film. */
export function drawnFilm(level: Level, seed: number, id: string, title: string): SetFilm {
  const random = seededRandom(seed, `film of ${level}`);
  const spec = randomFilm(level, random);
  const lateral = Math.abs(spec.view.turnDegrees) > 67.5;
  // A deformity needs a normal; it is asked on lateral films, with the other hand beside it.
  const asked: Asked = level !== 'first-steps' && lateral && random() < 0.3 ? 'deformity' : 'angulation';
  return {
    id,
    title,
    spec,
    filmSeed: Math.floor(between(random, 0, 4294967296)),
    ray: spec.fractures[0]!.ray,
    asked,
    otherHand: asked === 'deformity',
  };
}

/** A set of films of one level, all of them asking for the angle, as a study needs them. */
export const drawnSet = (level: Level, count: number, seed: number): FilmSet => ({
  id: `set-${level}-${seed}`,
  title: '',
  note: '',
  truth: 'hidden',
  films: Array.from({ length: count }, (_, index) => ({
    ...drawnFilm(level, seed + 7919 * index, `film-${index + 1}`, `Film ${index + 1}`),
    asked: 'angulation' as const,
    otherHand: false,
  })),
});
