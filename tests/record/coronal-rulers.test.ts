import { describe, expect, it } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import { type CaseDocument, recordId } from '../../src/case/document.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { recordPdf } from '../../src/record/pdf/record-pdf.ts';
import { snapshotContent } from '../../src/record/snapshot/content.ts';
import type { LimitSet } from '../../src/tolerance/limit-set.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { caseOf, film, free, injury, mark, settings, succeeded } from '../case/samples.ts';
import { FACES } from './pdf/faces.ts';

/** A local protocol that limits the sideways angle of a neck; no set that ships has one. */
const SIDEWAYS: LimitSet[] = SHIPPED_LIMIT_SETS.filter(({ id }) => id === 'strict-neck').map((set) => ({
  ...set,
  rows: set.rows.map((row) => ({ ...row, quantity: 'coronal' as const })),
})) as LimitSet[];

/**
 * A PA film with 45° between the axes by construction (atan 300/300), the radial side tapped on the left or on
 * the right: the same bend, apex radial or apex ulnar, so that the signs of the two differ.
 */
const bentAside = (radialColumn: number): CaseDocument =>
  caseOf(
    injury(),
    settings({ limitSetIds: ['strict-neck'], normal: 'zero' }),
    film('film-1', { columns: 800, rows: 1200, view: 'pa' }),
    mark('film-1/proximal-axis', 'film-1', 'proximal-axis', free([400, 1000], [400, 700])),
    mark('film-1/distal-axis', 'film-1', 'distal-axis', free([400, 690], [700, 390])),
    mark('film-1/radial-side', 'film-1', 'radial-side', {
      construction: 'point',
      at: filmPoint(radialColumn, 600),
    }),
  );

const [LEFT, RIGHT] = [bentAside(100), bentAside(750)];

const onSnapshot = (document: CaseDocument) =>
  snapshotContent(document, assess(document, SIDEWAYS), recordId('film-1'))?.outcomes[0]?.chosen;

const dotsOnPaper = async (document: CaseDocument): Promise<readonly number[]> => {
  const { pages } = succeeded(
    await recordPdf({
      document,
      assessment: assess(document, SIDEWAYS),
      faces: FACES,
      picture: null,
      label: null,
      writtenOn: null,
      softwareVersion: '0.1.0',
    }),
  );
  return pages.flat().flatMap((one) => (one.kind === 'circle' && one.fill !== null ? [one.x] : []));
};

describe('a coronal angle on the rulers that leave', () => {
  it('stands by its size, as it is compared, to whichever side the bone is bent', async () => {
    const signs = [LEFT, RIGHT].map((document) => {
      const angle = assess(document, SIDEWAYS).readings.find(({ quantity }) => quantity === 'angulation');
      return angle?.state === 'known' ? Math.round(angle.value) : null;
    });
    expect(signs.toSorted()).toEqual([-45, 45]);
    for (const document of [LEFT, RIGHT]) {
      expect(onSnapshot(document)?.words).toMatch(/past the limit/i);
      expect(onSnapshot(document)?.reading.value).toBeCloseTo(45, 6);
    }
    const [left, right] = [await dotsOnPaper(LEFT), await dotsOnPaper(RIGHT)];
    expect(left.length).toBeGreaterThan(0);
    expect(left).toEqual(right);
  });
});
