import { expect, it } from 'vitest';
import type { Attempt } from '../../../src/classroom/attempts.ts';
import { ProgressSheet } from '../../../src/ui/classroom/ProgressSheet.tsx';
import { mounted } from '../mounted.ts';

const page = mounted();

/** Off the truth by so many degrees, and so far that its interval misses it; `minute` keeps attempts apart. */
const attempt = (minute: number, error: number): Attempt => ({
  at: `2026-01-05T10:${10 + minute}:00.000Z`,
  exerciseId: `film-${minute}`,
  title: 'Everyday',
  from: 'level: everyday',
  ray: 'ring',
  asked: 'angulation',
  constructions: ['free', 'free'],
  value: 30 + error,
  expandedUncertainty: 5,
  truth: 30,
  verdict: 'outside',
  causes: [],
});

it('an attempt beyond the plot stands at its edge with its number, and one within it without', () => {
  page.show(
    <ProgressSheet
      attempts={[attempt(0, -62), attempt(1, 20), attempt(2, 75)]}
      onSave={() => undefined}
      onForget={() => undefined}
    />,
  );
  const numbers = [...page.host.querySelectorAll('.plot__miss text')].map((one) => one.textContent);
  expect(numbers).toEqual(['−62°', '+75°']);
});
