import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/case/assess.ts';
import type { CaseRecord, FilmRecord } from '../../../src/case/document.ts';
import { injuryOf, settingsOf } from '../../../src/case/fixed-records.ts';
import { SHIPPED_LIMIT_SETS } from '../../../src/tolerance/limit-sets.ts';
import type { BenchActions } from '../../../src/ui/actions.ts';
import { OutcomePanel } from '../../../src/ui/outcome/OutcomePanel.tsx';
import { caseOf, film, free, injury, on } from '../../case/samples.ts';
import { mounted } from '../mounted.ts';

const page = mounted();

/** The outcome in words of a case of one lateral film with these marks. */
function saidOf(...marks: readonly CaseRecord[]): string {
  const shown = film('film-1') as FilmRecord;
  const document = caseOf(injury({ ray: 'small', region: 'neck' }), shown, ...marks);
  page.show(
    <OutcomePanel
      assessment={assess(document, SHIPPED_LIMIT_SETS)}
      film={shown}
      injury={injuryOf(document)}
      limitSets={SHIPPED_LIMIT_SETS}
      settings={settingsOf(document)}
      actions={{} as BenchActions}
    />,
  );
  return page.host.querySelector('.outcome__words')?.textContent ?? '';
}

const proximal = on('film-1', 'proximal-axis', free([1000, 2000], [1000, 1600]));
const distal = on('film-1', 'distal-axis', free([1000, 1500], [1100, 1220]));

describe('before there is anything to compare', () => {
  it('asks for both axes where none is placed, and for the one that is missing', () => {
    expect(saidOf()).toBe('Nothing to compare yet: place both axes.');
    expect(saidOf(proximal)).toMatch(
      /^Nothing to compare yet\. The distal axis on the lateral film .* is missing/,
    );
    expect(saidOf(proximal, distal)).not.toContain('Nothing to compare');
  });

  it('does not ask to place axes that are there and make no angle', () => {
    const onOneSpot = on('film-1', 'distal-axis', free([1000, 1500], [1000, 1500]));
    const said = saidOf(proximal, onOneSpot);
    expect(said).toMatch(/The distal axis .* has no length, because its points coincide: move them apart\.$/);
    expect(said).not.toContain('place both axes');
  });
});
