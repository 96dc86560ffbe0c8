import type { TestSpecification } from 'vitest/node';
import { BaseSequencer } from 'vitest/node';

/**
 * What takes longest, first: begun last, it would go on alone beside an idle worker. Vitest knows how long a file
 * took only from a run before, of which a fresh machine has none.
 */
export const LONGEST = [
  'tests/fuzz/hunt.test.ts',
  'tests/journeys/classroom-teacher.test.ts',
  'tests/journeys/accessible.test.ts',
  'tests/journeys/case-archives.test.ts',
  'tests/reliability/kills.test.ts',
  'tests/journeys/course.test.ts',
  'tests/journeys/films.test.ts',
  'tests/journeys/classroom.test.ts',
] as const;

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification): number => {
      const at = LONGEST.findIndex((path) => moduleId.endsWith(path));
      return at === -1 ? LONGEST.length : at;
    };
    return (await super.sort(files)).toSorted((one, other) => rank(one) - rank(other));
  }
}
