import { act, createRef } from 'react';
import { describe, expect, it } from 'vitest';
import { LimitRuler, type RulerHandle, type RulerReading } from '../../../src/ui/outcome/LimitRuler.tsx';
import { mounted } from '../mounted.ts';

const page = mounted();
let ruler: RulerHandle | null;

function show(reading: RulerReading, unit: 'degrees' | 'millimetres' = 'degrees'): void {
  const handle = createRef<RulerHandle>();
  page.show(<LimitRuler ref={handle} reading={reading} lanes={[]} ticks={[]} unit={unit} description="" />);
  ruler = handle.current;
}

const readingOf = (value: number, expandedUncertainty: number): RulerReading => ({
  value,
  expandedUncertainty,
  text: `${value}°`,
});

const numbers = () => [...page.host.querySelectorAll('.ruler__number')].map((one) => one.textContent);
const dotAt = () => Number(page.host.querySelector('.ruler__dot')?.getAttribute('cx'));
const said = () => page.host.querySelector('.ruler__reading')?.textContent;

describe('the scale', () => {
  it('reaches down to a reading that lies far below nothing', () => {
    show(readingOf(-43, 12));
    // −43 − 12 = −55, rounded down to a whole mark of ten.
    expect(numbers()[0]).toBe('−60°');
    const ends = [...page.host.querySelectorAll('.ruler__number')].map((one) =>
      Number(one.getAttribute('x')),
    );
    expect(dotAt()).toBeGreaterThan(ends[0]!);
    expect(dotAt()).toBeLessThan(ends[1]!);
    expect(said()).toBe('-43°');
  });

  it('begins at nothing where the reading is not below it, and counts millimetres in ones', () => {
    show(readingOf(30, 10));
    expect(numbers()[0]).toBe('0°');
    show(readingOf(-3, 1), 'millimetres');
    expect(numbers()[0]).toBe('−4');
  });
});

describe('a point that is dragged', () => {
  it('beyond the scale shows the dot at its end, with the number and where it lies', () => {
    show(readingOf(30, 10));
    act(() => ruler?.show(readingOf(-35, 5)));
    const least = dotAt();
    expect(said()).toBe('← -35°');
    act(() => ruler?.show(readingOf(170, 5)));
    expect(said()).toBe('170° →');
    expect(dotAt()).toBeGreaterThan(least);
    act(() => ruler?.show(readingOf(31, 10)));
    expect(said()).toBe('31°');
  });

  it('to where there is no reading shows none', () => {
    show(readingOf(30, 10));
    const visible = () => page.host.querySelector('.ruler__dot')?.getAttribute('visibility');
    act(() => ruler?.show(null));
    expect(visible()).toBe('hidden');
    act(() => ruler?.show(readingOf(31, 10)));
    expect(visible()).toBe('visible');
  });
});
