import { act } from 'react';
import { describe, expect, it } from 'vitest';
import { userEvent } from 'vitest/browser';
import { type StudyPlan, StudySetup } from '../../../src/ui/classroom/StudySetup.tsx';
import { mounted } from '../mounted.ts';

const page = mounted();

const field = (label: string): HTMLInputElement => {
  const found = [...page.host.querySelectorAll('label')].find(({ textContent }) => textContent === label);
  if (found === undefined) throw new Error(`no field ${label}`);
  return found.control as HTMLInputElement;
};

const choose = (name: string) =>
  act(() =>
    userEvent.click(
      [...page.host.querySelectorAll('label')].find(({ textContent }) => textContent === name)!,
    ),
  );
const fill = (label: string, text: string) => act(() => userEvent.fill(field(label), text));
const begin = () => act(() => userEvent.click(page.button('Begin the study')));

function begun(): readonly StudyPlan[] {
  const plans: StudyPlan[] = [];
  page.show(<StudySetup filmsInSet={0} onBegin={(plan) => plans.push(plan)} />);
  return plans;
}

describe('a new study of one rater, again', () => {
  it('asks for one label, which is the one of the rater', async () => {
    const plans = begun();
    await choose('one rater, again');
    expect(field('Label of the rater; no name').value).toBe('A');
    await fill('Label of the rater; no name', 'B, second year');
    await begin();
    expect(plans.map(({ raters }) => raters)).toEqual([[{ label: 'B, second year', axes: null }]]);
  });

  it('begins as many rounds as are asked for, and says that one is too few', async () => {
    const plans = begun();
    await choose('one rater, again');
    await fill('Rounds', '1');
    expect(page.host.textContent).toContain('Choose between 2 and 10 rounds.');
    expect(page.button('Begin the study').disabled).toBe(true);
    await fill('Rounds', '3');
    await begin();
    expect(plans.map(({ rounds }) => rounds)).toEqual([3]);
  });

  it('keeps the labels of several raters for whoever goes back to them', async () => {
    const plans = begun();
    await fill('Labels of the raters, with commas between; no names', 'X, Y, X');
    await choose('one rater, again');
    await choose('several raters');
    await fill('Rounds', '1');
    await begin();
    expect(plans).toMatchObject([{ raters: [{ label: 'X' }, { label: 'Y' }], rounds: 1 }]);
  });
});
