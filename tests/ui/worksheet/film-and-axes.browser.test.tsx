import { act } from 'react';
import { describe, expect, it, vi } from 'vitest';
import '../../../src/ui/look/tokens.css';
import '../../../src/ui/look/base.css';
import '../../../src/ui/look/controls.css';
import '../../../src/ui/look/form.css';
import '../../../src/ui/look/injury.css';
import '../../../src/ui/look/worksheet.css';
import type { FilmRecord } from '../../../src/case/document.ts';
import { filmPoint } from '../../../src/geometry/units.ts';
import { AxesSection } from '../../../src/ui/worksheet/AxesSection.tsx';
import { FilmSection } from '../../../src/ui/worksheet/FilmSection.tsx';
import { PlacingErrorLine } from '../../../src/ui/worksheet/PlacingErrorLine.tsx';
import { film, free, on, settings } from '../../case/samples.ts';
import { mounted } from '../mounted.ts';
import { noted } from '../noted-actions.ts';
import { paFilm, spacing } from './films.ts';

const page = mounted();

describe('the finger measured on a film of the other hand', () => {
  const sound = film('sound', { view: 'pa', hand: 'other', spacing });
  const section = (shown: FilmRecord, actions = noted().actions) => (
    <FilmSection film={shown} broken="small" next={null} actions={actions} />
  );
  const finger = () =>
    page.host.querySelector<HTMLButtonElement>(
      'button[aria-label*="Finger measured"], button[aria-labelledby]',
    );

  it('is asked for there and not on the injured hand', async () => {
    page.show(section(paFilm));
    expect(page.host.textContent).not.toContain('Finger measured');
    page.show(section(sound));
    expect(page.host.textContent).toContain('Finger measured');
    expect(finger()?.textContent).toContain('small finger');
    page.show(section({ ...sound, ray: 'ring' }));
    expect(finger()?.textContent).toContain('ring finger');
    expect(await page.violations()).toEqual([]);
  });

  it('is kept when it is another one, and goes without saying when it is the broken one', () => {
    for (const [from, option, to] of [
      [sound, 'ring finger', { ...sound, ray: 'ring' }],
      [{ ...sound, ray: 'ring' } as FilmRecord, 'small finger', sound],
    ] as const) {
      const { actions, asked } = noted();
      page.show(section(from, actions));
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
    page.show(placing({}, paFilm));
    expect(page.host.textContent).toContain('0.50\u2009mm');
    expect(page.host.textContent).toContain('an assumption');
    page.show(placing({ placingErrorMm: 0.36, placingErrorDegreesOfFreedom: 10 }, paFilm));
    expect(page.host.textContent).toContain('0.36\u2009mm');
    expect(page.host.textContent).toContain('from your repeats, 10 degrees of freedom');
  });

  it('offers no repeats where they would give no millimetres', () => {
    const noScale = film('bare', {
      spacing: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
    });
    page.show(placing({}, noScale));
    const button = [...page.host.querySelectorAll('button')].find(
      (one) => one.textContent === 'Place again, blind',
    );
    expect(button?.disabled).toBe(true);
    expect(page.host.textContent).toContain('This film has no scale');
  });

  it('offers to use what the repeats gave, here or in new cases too', () => {
    const { actions, asked } = noted();
    const adopt = vi.fn();
    page.show(
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
    expect(page.host.textContent).toContain('0.36\u2009mm');
    for (const name of ['Use in this case', 'Use here and in new cases', 'Throw away'])
      act(() => [...page.host.querySelectorAll('button')].find((one) => one.textContent === name)?.click());
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
        act(() => page.host.querySelector<HTMLButtonElement>(`[aria-label="${name}"]`)?.click());
        return asked.at(-1);
      },
    };
  };

  it('place what a study asks for at once', () => {
    const { actions, press } = placed();
    page.show(<AxesSection {...lines} drawnBy="dorsal-cortex" actions={actions} />);
    expect(press('Place proximal axis')).toEqual(['place', 'proximal-axis', 'dorsal-cortex']);
    expect(press('Place distal axis')).toEqual(['place', 'distal-axis', 'dorsal-cortex']);
    expect(press('Place dorsal side')).toEqual(['place', 'dorsal-side', 'point']);
  });

  it('place the first of those that suit a mark where nothing is asked for', () => {
    const { actions, press } = placed();
    page.show(<AxesSection {...lines} actions={actions} />);
    expect(press('Place proximal axis')).toEqual(['place', 'proximal-axis', 'canal']);
    expect(press('Place distal axis')).toEqual(['place', 'distal-axis', 'head']);
  });

  it('say how the mark of the film shown is drawn, whichever film was shown before', () => {
    const { actions, press } = placed();
    const shown = (...marks: ReturnType<typeof on>[]) =>
      page.show(<AxesSection {...lines} marks={marks} actions={actions} />);
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
