import axe from 'axe-core';
import { act } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import '../../src/ui/look/tokens.css';
import '../../src/ui/look/base.css';
import '../../src/ui/look/controls.css';
import '../../src/ui/look/form.css';
import '../../src/ui/look/injury.css';
import '../../src/ui/look/worksheet.css';
import { assess } from '../../src/case/assess.ts';
import type { Assessment } from '../../src/case/assessment.ts';
import type { CaseRecord, FilmRecord, MarkRole } from '../../src/case/document.ts';
import { QUANTITY_NAMES } from '../../src/case/format.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { checksFor, EXAMINATION_CHECKS } from '../../src/tolerance/checks.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import type { BenchActions } from '../../src/ui/actions.ts';
import { type Live, LiveContext } from '../../src/ui/live.ts';
import { AxesSection } from '../../src/ui/worksheet/AxesSection.tsx';
import { ExaminationSection } from '../../src/ui/worksheet/ExaminationSection.tsx';
import { FilmSection } from '../../src/ui/worksheet/FilmSection.tsx';
import { PlacingErrorLine } from '../../src/ui/worksheet/PlacingErrorLine.tsx';
import { ReadingLine } from '../../src/ui/worksheet/ReadingLine.tsx';
import { ReadingsSection } from '../../src/ui/worksheet/ReadingsSection.tsx';
import { caseOf, dot, film, free, injury, line, on, settings } from '../case/samples.ts';

let host: HTMLElement;
let root: Root;

beforeEach(() => {
  (globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;
  host = document.createElement('main');
  document.body.append(host);
  root = createRoot(host);
});

afterEach(() => {
  act(() => root.unmount());
  host.remove();
});

const show = (content: React.ReactNode) => act(() => root.render(content));

/** Actions that note what was asked of them. */
const noted = () => {
  const asked: [string, ...unknown[]][] = [];
  const actions = new Proxy({} as BenchActions, {
    get:
      (_, name) =>
      (...given: unknown[]) =>
        asked.push([String(name), ...given]),
  });
  return { actions, asked };
};

async function violations(): Promise<readonly string[]> {
  // A heading of the page stands outside of what is shown here.
  const { violations: found } = await axe.run(host, {
    rules: { 'page-has-heading-one': { enabled: false } },
  });
  return found.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
}

const { spacing: atDetector } = film('any');
const spacing = { ...atDetector, plane: 'patient' } as FilmRecord['spacing'];

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

const paFilm = film('pa', { view: 'pa', spacing });
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
      show(readings(ALL, shown));
      for (const reading of host.querySelectorAll('[data-quantity]')) {
        quantities.push(reading.getAttribute('data-quantity'));
        expect(reading.textContent).toContain('±');
      }
      for (const reading of host.querySelectorAll('.reading'))
        expect(reading.querySelector('.help-mark')?.getAttribute('aria-label')).toMatch(/^What is .+\?$/);
      expect(await violations()).toEqual([]);
    }
    expect(quantities.toSorted()).toEqual(Object.keys(QUANTITY_NAMES).toSorted());
  });

  it('call an angle seen from the front a coronal one', () => {
    show(readings(ALL, paFilm));
    expect(host.textContent).toContain('Coronal angulation, measured');
    expect(host.textContent).toContain('Coronal deformity');
    const side = film('side', { spacing });
    show(readings(ALL, side));
    expect(host.textContent).toContain('Angulation, measured');
    expect(host.textContent).not.toContain('Coronal');
  });

  it('open to where the interval comes from, with shares that add up to 100 %', () => {
    show(readings(ALL, paFilm));
    const budget = host.querySelector('details[data-quantity="shortening-by-other-hand"] .budget');
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
    const angulation = () => host.querySelector('[data-quantity="angulation"]')?.textContent;
    const [line] = assess(caseOf(...withEnd(1100)), SHIPPED_LIMIT_SETS).readings;
    show(
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
    const shown = () => host.querySelector('[data-quantity="angulation"]')?.textContent ?? '';
    const before = assess(caseOf(...withEnd([1100, 1220])), SHIPPED_LIMIT_SETS);
    show(
      <LiveContext value={live}>
        <ReadingLine reading={before.readings[0]!} view="lateral" />
      </LiveContext>,
    );
    const number = () => host.querySelector('.reading__number')?.textContent ?? '';
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
    show(readings(alone, paFilm));
    expect(host.querySelector('[data-quantity="spatial-angle"]')?.textContent).toContain(
      'add a lateral film of the same day',
    );
    expect(host.querySelector('[data-quantity="shortening-by-other-hand"]')?.textContent).toContain(
      'A film of the other hand in the PA view is missing',
    );
  });
});

describe('the examination on the worksheet', () => {
  const child = injury({ ageGroup: 'child', region: 'base' });
  const section = (answers: Readonly<Record<string, 'yes' | 'no'>>, actions: BenchActions) => (
    <ExaminationSection
      checks={checksFor(child)}
      examination={{ kind: 'examination', id: injury().id, answers }}
      injury={child}
      readings={[]}
      next={null}
      actions={actions}
    />
  );

  it('asks every check of the injury once, and what the injury itself leaves open', async () => {
    show(section({}, noted().actions));
    // The base of a child's hand is asked every check there is.
    for (const { question } of EXAMINATION_CHECKS)
      expect(host.querySelectorAll(`[role="radiogroup"][aria-label="${question}"]`)).toHaveLength(1);
    expect(host.textContent).toContain('Pattern');
    expect(host.textContent).toContain('Age group');
    expect(await violations()).toEqual([]);
  });

  it('shows what is not checked where that matters, until it is answered', () => {
    const mattering = EXAMINATION_CHECKS.filter(({ whenUnanswered }) => whenUnanswered !== null);
    show(section({}, noted().actions));
    expect(host.querySelectorAll('.check[data-open]')).toHaveLength(mattering.length);
    expect(host.textContent).toContain(`${mattering.length} not checked`);
    show(section(Object.fromEntries(mattering.map(({ id }) => [id, 'no' as const])), noted().actions));
    expect(host.querySelectorAll('.check[data-open]')).toHaveLength(0);
    expect(host.textContent).toContain('all that matters is checked');
  });

  it('takes an answer, and takes it back when it is chosen again', () => {
    const { actions, asked } = noted();
    show(section({ rotation: 'yes' }, actions));
    const buttonOf = (id: string, name: string) => {
      const question = EXAMINATION_CHECKS.find((check) => check.id === id)?.question;
      const group = host.querySelector(`[aria-label="${question}"]`);
      return [...(group?.querySelectorAll('button') ?? [])].find((one) => one.textContent === name);
    };
    act(() => buttonOf('knuckle-wound', 'no')?.click());
    act(() => buttonOf('rotation', 'yes')?.click());
    act(() => buttonOf('comminuted', 'several')?.click());
    expect(asked).toEqual([
      ['answer', 'knuckle-wound', 'no'],
      ['answer', 'rotation', null],
      ['answer', 'comminuted', 'yes'],
    ]);
  });
});

describe('the finger measured on a film of the other hand', () => {
  const sound = film('sound', { view: 'pa', hand: 'other', spacing });
  const section = (shown: FilmRecord, actions = noted().actions) => (
    <FilmSection film={shown} broken="small" next={null} actions={actions} />
  );
  const finger = () =>
    host.querySelector<HTMLButtonElement>('button[aria-label*="Finger measured"], button[aria-labelledby]');

  it('is asked for there and not on the injured hand', async () => {
    show(section(paFilm));
    expect(host.textContent).not.toContain('Finger measured');
    show(section(sound));
    expect(host.textContent).toContain('Finger measured');
    expect(finger()?.textContent).toContain('small finger');
    show(section({ ...sound, ray: 'ring' }));
    expect(finger()?.textContent).toContain('ring finger');
    expect(await violations()).toEqual([]);
  });

  it('is kept when it is another one, and goes without saying when it is the broken one', () => {
    for (const [from, option, to] of [
      [sound, 'ring finger', { ...sound, ray: 'ring' }],
      [{ ...sound, ray: 'ring' } as FilmRecord, 'small finger', sound],
    ] as const) {
      const { actions, asked } = noted();
      show(section(from, actions));
      act(() => finger()?.click());
      const found = [...document.querySelectorAll<HTMLElement>('[role="option"]')].find(
        (one) => one.textContent === option,
      );
      act(() => found?.click());
      expect(asked).toEqual([['replaceFilm', to, 'say which finger is measured']]);
    }
  });
});

describe('the placing error on the worksheet', () => {
  const placing = (
    overrides: Parameters<typeof settings>[0],
    shown: FilmRecord,
    actions = noted().actions,
  ) => <PlacingErrorLine settings={settings(overrides)} film={shown} repeats={null} actions={actions} />;

  it('says where it comes from', () => {
    show(placing({}, paFilm));
    expect(host.textContent).toContain('0.50\u2009mm');
    expect(host.textContent).toContain('an assumption');
    show(placing({ placingErrorMm: 0.36, placingErrorDegreesOfFreedom: 10 }, paFilm));
    expect(host.textContent).toContain('0.36\u2009mm');
    expect(host.textContent).toContain('from your repeats, 10 degrees of freedom');
  });

  it('offers no repeats where they would give no millimetres', () => {
    const noScale = film('bare', {
      spacing: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
    });
    show(placing({}, noScale));
    const button = [...host.querySelectorAll('button')].find(
      (one) => one.textContent === 'Place again, blind',
    );
    expect(button?.disabled).toBe(true);
    expect(host.textContent).toContain('This film has no scale');
  });

  it('offers to use what the repeats gave, here or in new cases too', () => {
    const { actions, asked } = noted();
    const adopt = vi.fn();
    show(
      <PlacingErrorLine
        settings={settings()}
        film={paFilm}
        repeats={{
          axis: 'Proximal axis by canal',
          made: 6,
          wanted: 6,
          estimate: { millimetres: 0.364, degreesOfFreedom: 10 },
        }}
        actions={{ ...actions, adoptRepeats: adopt, stopRepeats: actions.stopRepeats }}
      />,
    );
    expect(host.textContent).toContain('0.36\u2009mm');
    for (const name of ['Use in this case', 'Use here and in new cases', 'Throw away'])
      act(() => [...host.querySelectorAll('button')].find((one) => one.textContent === name)?.click());
    expect(adopt.mock.calls).toEqual([[false], [true]]);
    expect(asked.map(([name]) => name)).toEqual(['stopRepeats']);
  });
});

describe('the lines of the axes', () => {
  const lines = { marks: [], sideRole: 'dorsal-side', placing: null, trace: null, next: null } as const;
  const placed = () => {
    const { actions, asked } = noted();
    return {
      actions,
      press: (name: string) => {
        act(() => host.querySelector<HTMLButtonElement>(`[aria-label="${name}"]`)?.click());
        return asked.at(-1);
      },
    };
  };

  it('place what a study asks for at once', () => {
    const { actions, press } = placed();
    show(<AxesSection {...lines} drawnBy="dorsal-cortex" actions={actions} />);
    expect(press('Place proximal axis')).toEqual(['place', 'proximal-axis', 'dorsal-cortex']);
    expect(press('Place distal axis')).toEqual(['place', 'distal-axis', 'dorsal-cortex']);
    expect(press('Place dorsal side')).toEqual(['place', 'dorsal-side', 'point']);
  });

  it('place the first of those that suit a mark where nothing is asked for', () => {
    const { actions, press } = placed();
    show(<AxesSection {...lines} actions={actions} />);
    expect(press('Place proximal axis')).toEqual(['place', 'proximal-axis', 'canal']);
    expect(press('Place distal axis')).toEqual(['place', 'distal-axis', 'head']);
  });

  it('say how the mark of the film shown is drawn, whichever film was shown before', () => {
    const { actions, press } = placed();
    const shown = (...marks: ReturnType<typeof on>[]) =>
      show(<AxesSection {...lines} marks={marks} actions={actions} />);
    shown(on('one', 'proximal-axis', free([1000, 2000], [1000, 1600])));
    expect(press('Place again: proximal axis')).toEqual(['place', 'proximal-axis', 'free']);
    shown(
      on('two', 'proximal-axis', {
        construction: 'dorsal-cortex',
        points: [filmPoint(1000, 2000), filmPoint(1000, 1600)],
      }),
    );
    expect(press('Place again: proximal axis')).toEqual(['place', 'proximal-axis', 'dorsal-cortex']);
  });
});
