import { describe, expect, it } from 'vitest';
import '../../../src/ui/look/tokens.css';
import '../../../src/ui/look/base.css';
import '../../../src/ui/look/controls.css';
import '../../../src/ui/look/form.css';
import '../../../src/ui/look/injury.css';
import '../../../src/ui/look/worksheet.css';
import { assess } from '../../../src/case/assess.ts';
import type { Assessment } from '../../../src/case/assessment.ts';
import type { CaseRecord, FilmRecord, MarkRole } from '../../../src/case/document.ts';
import { QUANTITY_NAMES } from '../../../src/case/format.ts';
import { SHIPPED_LIMIT_SETS } from '../../../src/tolerance/limit-sets.ts';
import { type Live, LiveContext } from '../../../src/ui/live.ts';
import { ReadingLine } from '../../../src/ui/worksheet/ReadingLine.tsx';
import { ReadingsSection } from '../../../src/ui/worksheet/ReadingsSection.tsx';
import { caseOf, dot, film, free, injury, line, on, settings } from '../../case/samples.ts';
import { mounted } from '../mounted.ts';
import { noted } from '../noted-actions.ts';
import { paFilm, spacing } from './films.ts';

const page = mounted();

const bent = (id: string, side: MarkRole) => [
  on(id, 'proximal-axis', free([1000, 2000], [1000, 1600])),
  on(id, 'distal-axis', free([1000, 1500], [1100, 1220])),
  dot(id, side, [400, 1700]),
];

/** Two nails and the width of a third on a photograph of the fist. */
const nails = (id: string, aside: number) => [
  line(id, 'reference-nail', [500, 600], [500, 500]),
  line(id, 'finger-nail', [700, 600], [700 + aside, 500]),
  line(id, 'neighbour-nail', [800, 500], [880, 500]),
  dot(id, 'covering-edge', [820, 560]),
];

/** Lengths and the head line of one hand on a PA film. */
const lengths = (id: string, top: number) => [
  line(id, 'length', [1000, 2000], [1000, top]),
  line(id, 'reference-length', [1200, 2000], [1200, 1200]),
  line(id, 'head-line', [1200, 1200], [1400, 1200]),
  dot(id, 'head-point', [1000, top]),
];

const fistPhotograph = film('fist', { shows: 'fist', view: null });
const ALL: readonly CaseRecord[] = [
  injury(),
  settings(),
  paFilm,
  film('side', { spacing }),
  film('sound', { view: 'pa', hand: 'other', spacing }),
  ...bent('pa', 'radial-side'),
  ...bent('side', 'dorsal-side'),
  ...bent('sound', 'radial-side'),
  fistPhotograph,
  film('sound-fist', { shows: 'fist', view: null, hand: 'other' }),
  ...nails('fist', 20),
  ...nails('sound-fist', -10),
  ...lengths('pa', 1260),
  ...lengths('sound', 1220),
  line('pa', 'fracture-tips', [990, 1500], [1020, 1550]),
  line('pa', 'fracture-level', [950, 1550], [1050, 1550]),
  line('pa', 'joint-surface', [1000, 1000], [1200, 1000]),
  line('pa', 'joint-edges', [1210, 1000], [1240, 1015]),
];

const readings = (records: readonly CaseRecord[], shown: FilmRecord) => (
  <ReadingsSection
    assessment={assess(caseOf(...records), SHIPPED_LIMIT_SETS)}
    film={shown}
    settings={settings()}
    repeats={null}
    actions={noted().actions}
  />
);

describe('the readings on the worksheet', () => {
  it('are all there, each once with its interval, on the film or photograph it was read from', async () => {
    const quantities: (string | null)[] = [];
    for (const shown of [paFilm, fistPhotograph]) {
      page.show(readings(ALL, shown));
      for (const reading of page.host.querySelectorAll('[data-quantity]')) {
        quantities.push(reading.getAttribute('data-quantity'));
        expect(reading.textContent).toContain('±');
      }
      for (const reading of page.host.querySelectorAll('.reading'))
        expect(reading.querySelector('.help-mark')?.getAttribute('aria-label')).toMatch(/^Definition: .+$/);
      expect(await page.violations()).toEqual([]);
    }
    expect(quantities.toSorted()).toEqual(Object.keys(QUANTITY_NAMES).toSorted());
  });

  it('call an angle seen from the front a coronal one', () => {
    page.show(readings(ALL, paFilm));
    expect(page.host.textContent).toContain('Coronal angulation, measured');
    expect(page.host.textContent).toContain('Coronal deformity');
    const side = film('side', { spacing });
    page.show(readings(ALL, side));
    expect(page.host.textContent).toContain('Angulation, measured');
    expect(page.host.textContent).not.toContain('Coronal');
  });

  it('open to where the interval comes from, with shares that add up to 100 %', () => {
    page.show(readings(ALL, paFilm));
    const budget = page.host.querySelector('details[data-quantity="shortening-by-other-hand"] .budget');
    const shares = [...(budget?.querySelectorAll('tbody td:last-child') ?? [])].map((cell) =>
      Number.parseInt(cell.textContent ?? '', 10),
    );
    expect(shares.length).toBeGreaterThan(1);
    expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) - 100)).toBeLessThanOrEqual(shares.length);
  });

  it('turn the way they bend with the point that is dragged', () => {
    const side = film('side', { spacing });
    const withEnd = (column: number): readonly CaseRecord[] => [
      injury(),
      settings(),
      side,
      ...bent('side', 'dorsal-side'),
      on('side', 'distal-axis', free([1000, 1500], [column, 1220])),
    ];
    let preview: (assessment: Assessment) => void = () => undefined;
    const live: Live = {
      subscribe: (listener) => {
        preview = listener;
        return () => undefined;
      },
    };
    const angulation = () => page.host.querySelector('[data-quantity="angulation"]')?.textContent;
    const [line] = assess(caseOf(...withEnd(1100)), SHIPPED_LIMIT_SETS).readings;
    page.show(
      <LiveContext value={live}>
        <ReadingLine reading={line!} view="lateral" />
      </LiveContext>,
    );
    // The dorsal side lies at column 400: an end that leans away from it bends the bone apex dorsal.
    expect(angulation()).toContain('apex dorsal');
    preview(assess(caseOf(...withEnd(900)), SHIPPED_LIMIT_SETS));
    expect(angulation()).toContain('apex volar');
  });

  it('show no number while a point is where there is none, and the number again after', () => {
    const side = film('side', { spacing });
    const withEnd = (end: [number, number]): readonly CaseRecord[] => [
      injury(),
      settings(),
      side,
      ...bent('side', 'dorsal-side'),
      on('side', 'distal-axis', free([1000, 1500], end)),
    ];
    let preview: (assessment: Assessment) => void = () => undefined;
    const live: Live = {
      subscribe: (listener) => {
        preview = listener;
        return () => undefined;
      },
    };
    const shown = () => page.host.querySelector('[data-quantity="angulation"]')?.textContent ?? '';
    const before = assess(caseOf(...withEnd([1100, 1220])), SHIPPED_LIMIT_SETS);
    page.show(
      <LiveContext value={live}>
        <ReadingLine reading={before.readings[0]!} view="lateral" />
      </LiveContext>,
    );
    const number = () => page.host.querySelector('.reading__number')?.textContent ?? '';
    expect(number()).toMatch(/\d+°/);
    // Both ends of the axis on one spot: it has no direction.
    preview(assess(caseOf(...withEnd([1000, 1500])), SHIPPED_LIMIT_SETS));
    expect(number().trim()).toBe('–');
    expect(shown()).toContain('has no length, because its points coincide');
    preview(before);
    expect(number()).toMatch(/\d+°/);
  });

  it('name the film that is wanting', () => {
    const alone = ALL.filter(({ id }) => !id.startsWith('side') && !id.startsWith('sound'));
    page.show(readings(alone, paFilm));
    expect(page.host.querySelector('[data-quantity="spatial-angle"]')?.textContent).toContain(
      'add a lateral film of the same day',
    );
    expect(page.host.querySelector('[data-quantity="shortening-by-other-hand"]')?.textContent).toContain(
      'A film of the other hand in the PA view is missing',
    );
  });
});
