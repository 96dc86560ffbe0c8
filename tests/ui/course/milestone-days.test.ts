import { describe, expect, it } from 'vitest';
import { dateOf, dayWords } from '../../../src/ui/course/days.ts';
import { inDaysSinceInjury, lastDayShown } from '../../../src/ui/course/milestone-days.ts';

const milestone = (id: string, since: 'injury' | 'reduction', fromDay: number, toDay: number) => ({
  id,
  name: id,
  since,
  fromDay,
  toDay,
  source: 'invented for this test',
});

describe('milestones on the axis of days', () => {
  it('are counted from the reduction where that is what they are meant from, earliest first', () => {
    const dated = inDaysSinceInjury(
      [milestone('wires', 'reduction', 28, 35), milestone('splint', 'injury', 21, 28)],
      3,
    );
    expect(dated.map(({ id, fromDay, toDay }) => [id, fromDay, toDay])).toEqual([
      ['splint', 21, 28],
      ['wires', 31, 38],
    ]);
    expect(dated.map(({ reductionNotKnown }) => reductionNotKnown)).toEqual([false, false]);
  });

  it('are counted from the injury, and say so, where no reduction is known', () => {
    const [wires] = inDaysSinceInjury([milestone('wires', 'reduction', 28, 35)], null);
    expect(wires).toMatchObject({ fromDay: 28, toDay: 35, reductionNotKnown: true });
  });

  it('stretch the axis to the next one after the last film, and never below four weeks', () => {
    const dated = inDaysSinceInjury(
      [milestone('a', 'injury', 35, 42), milestone('b', 'injury', 80, 90)],
      null,
    );
    expect(lastDayShown([], [])).toBe(28);
    expect(lastDayShown([0, 30], dated)).toBe(44);
    expect(lastDayShown([0, 60], dated)).toBe(92);
    expect(lastDayShown([0, 200], dated)).toBe(207);
  });
});

describe('calendar days', () => {
  it('stand beside the days only when the user gave the day of the injury', () => {
    expect(dayWords(12, null)).toBe('day 12');
    expect(dateOf(12, null)).toBeNull();
    expect(dateOf(12, 'no date')).toBeNull();
  });

  it('are right over the end of a month and of winter time, whatever the time zone of the machine', () => {
    // 1 March 2026 + 30 days is 31 March (a March has 31 days); clocks change on 29 March 2026 in Europe.
    expect(dateOf(30, '2026-03-01')).toMatch(/31/);
    expect(dateOf(31, '2026-03-01')).toMatch(/\b1\b/);
    // 2028 is a leap year: 28 February + 1 day is the 29th.
    expect(dateOf(1, '2028-02-28')).toMatch(/29/);
  });
});
