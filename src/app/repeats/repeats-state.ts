import type { FilmRecord } from '../../case/document.ts';
import { CONSTRUCTION_FACTS } from '../../case/roles.ts';
import type { RepeatsState } from '../../ui/worksheet/PlacingErrorLine.tsx';
import { outcomeOf, PLACINGS_WANTED } from './repeats.ts';
import type { Repeats } from './repeats-task.ts';

/** What the worksheet says of repeats on the film shown; null where there are none. */
export function repeatsState(repeats: Repeats | null, film: FilmRecord | null): RepeatsState | null {
  if (repeats === null || repeats.filmId !== film?.id) return null;
  const outcome = outcomeOf(repeats, film.spacing);
  return {
    axis: `Proximal axis by ${CONSTRUCTION_FACTS[repeats.construction].name}`,
    made: repeats.placings.length,
    wanted: PLACINGS_WANTED,
    estimate:
      outcome?.kind === 'estimate'
        ? { millimetres: outcome.standardUncertaintyMm, degreesOfFreedom: outcome.degreesOfFreedom }
        : null,
  };
}
