import { describe, expect, it, onTestFinished } from 'vitest';
import { keptAttempts, keptSet, keptStudy } from '../../src/app/classroom/kept-here.ts';
import { closedHints, keepClosedHints } from '../../src/app/hints.ts';
import { keepTheme, keptTheme } from '../../src/app/theme.ts';

/** With site data forbidden, naming it throws: HTML, 12.2.3, the getter of `localStorage`. */
function forbidden(): void {
  const before = Object.getOwnPropertyDescriptor(globalThis, 'localStorage');
  Object.defineProperty(globalThis, 'localStorage', {
    configurable: true,
    get() {
      throw new DOMException('not allowed', 'SecurityError');
    },
  });
  onTestFinished(() => {
    if (before === undefined) Reflect.deleteProperty(globalThis, 'localStorage');
    else Object.defineProperty(globalThis, 'localStorage', before);
  });
}

describe('a browser that keeps nothing', () => {
  it('starts with the look, the hints and the classroom of a first visit', () => {
    forbidden();
    expect(keptTheme()).toBe('system');
    expect(closedHints().size).toBe(0);
    expect([keptAttempts(), keptSet(), keptStudy()]).toEqual([[], null, null]);
  });

  it('changes the look and closes hints all the same', () => {
    forbidden();
    expect(() => keepTheme('paper')).not.toThrow();
    expect(() => keepClosedHints(new Set())).not.toThrow();
  });
});
