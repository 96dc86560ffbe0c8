import { act } from 'react';
import { describe, expect, it } from 'vitest';
import '../../../src/ui/look/tokens.css';
import '../../../src/ui/look/base.css';
import '../../../src/ui/look/controls.css';
import '../../../src/ui/look/form.css';
import '../../../src/ui/look/injury.css';
import '../../../src/ui/look/worksheet.css';
import { checksFor, EXAMINATION_CHECKS } from '../../../src/tolerance/checks.ts';
import type { BenchActions } from '../../../src/ui/actions.ts';
import { ExaminationSection } from '../../../src/ui/worksheet/ExaminationSection.tsx';
import { injury } from '../../case/samples.ts';
import { mounted } from '../mounted.ts';

import { noted } from '../noted-actions.ts';

const page = mounted();

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
    page.show(section({}, noted().actions));
    // The base of a child's hand is asked every check there is.
    for (const { question } of EXAMINATION_CHECKS)
      expect(page.host.querySelectorAll(`[role="radiogroup"][aria-label="${question}"]`)).toHaveLength(1);
    expect(page.host.textContent).toContain('Pattern');
    expect(page.host.textContent).toContain('Age group');
    expect(await page.violations()).toEqual([]);
  });

  it('shows what is not checked where that matters, until it is answered', () => {
    const mattering = EXAMINATION_CHECKS.filter(({ whenUnanswered }) => whenUnanswered !== null);
    page.show(section({}, noted().actions));
    expect(page.host.querySelectorAll('.check[data-open]')).toHaveLength(mattering.length);
    expect(page.host.textContent).toContain(`${mattering.length} not checked`);
    page.show(section(Object.fromEntries(mattering.map(({ id }) => [id, 'no' as const])), noted().actions));
    expect(page.host.querySelectorAll('.check[data-open]')).toHaveLength(0);
    expect(page.host.textContent).toContain('all that matters is checked');
  });

  it('takes an answer, and takes it back when it is chosen again', () => {
    const { actions, asked } = noted();
    page.show(section({ rotation: 'yes' }, actions));
    const buttonOf = (id: string, name: string) => {
      const question = EXAMINATION_CHECKS.find((check) => check.id === id)?.question;
      const group = page.host.querySelector(`[aria-label="${question}"]`);
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
