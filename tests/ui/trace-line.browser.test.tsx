import { act } from 'react';
import { beforeEach, describe, expect, it } from 'vitest';
import '../../src/ui/look/tokens.css';
import '../../src/ui/look/base.css';
import '../../src/ui/look/controls.css';
import '../../src/ui/look/form.css';
import '../../src/ui/look/injury.css';
import '../../src/ui/look/worksheet.css';
import type { BenchActions } from '../../src/ui/actions.ts';
import { TraceLine, type TraceState } from '../../src/ui/worksheet/TraceLine.tsx';
import { mounted } from './mounted.ts';

const page = mounted();
let asked: string[];

beforeEach(() => {
  asked = [];
});

/** Notes the name of what was asked for. */
const actions = new Proxy({} as BenchActions, { get: (_, name) => () => asked.push(String(name)) });

const show = (trace: TraceState) => page.show(<TraceLine trace={trace} actions={actions} />);
const said = () => page.host.querySelector('[role="status"]')?.textContent ?? null;

const SURE: TraceState = {
  kind: 'proposed',
  sure: true,
  angle: '31°',
  interval: '27–35°',
  reasons: [],
  canStepBack: false,
};
const REASON =
  'The distal axis rests on points only 5.1 mm apart (8 mm are wanted), so small errors turn it much.';

describe('the line that traces both axes', () => {
  it('has no barrier that axe knows of, and a live region, in every state', async () => {
    const states: readonly TraceState[] = [
      { kind: 'offered', lacks: null },
      { kind: 'offered', lacks: 'Say above which bone is broken, and where.' },
      { kind: 'tapping', instruction: 'Tap the tip of the head.', canStepBack: true },
      { kind: 'running' },
      { kind: 'failed', sentence: 'No outlines were found.', canStepBack: true },
      SURE,
      { ...SURE, sure: false, reasons: [REASON], canStepBack: true },
    ];
    for (const state of states) {
      show(state);
      expect(said()).not.toBeNull();
      expect(await page.violations()).toEqual([]);
    }
  });

  it('says the angle with its interval where the tracer is sure', () => {
    show(SURE);
    expect(said()).toMatch(/^31°, 95 % interval 27–35°/);
    act(() => page.button('Accept the traced axes').click());
    act(() => page.button('Refuse the traced axes').click());
    act(() => page.button('Tap both edges').click());
    expect(asked).toEqual(['acceptTrace', 'refuseTrace', 'bracketTrace']);
  });

  it('says that it is not sure, why, and no angle where it is not', () => {
    show({ ...SURE, sure: false, reasons: [REASON] });
    expect(said()).toMatch(/^Not sure: place by hand\. Somewhere in 27–35°/);
    expect(said()).toContain(REASON);
    expect(said()).not.toContain('31°');
    expect(page.button('Accept all the same').dataset.next).toBeUndefined();
    act(() => page.button('Accept all the same').click());
    expect(asked).toEqual(['acceptTrace']);
  });

  it('keeps the keyboard in the line when the pressed button goes away', () => {
    show(SURE);
    page.button('Refuse the traced axes').focus();
    show({ kind: 'offered', lacks: null });
    expect(document.activeElement).toBe(page.button('Trace both axes'));
  });

  it('cannot be begun where tracing knows nothing, and says why', () => {
    show({ kind: 'offered', lacks: 'Tracing was not set on thumbs; place both axes by hand.' });
    expect(page.button('Trace both axes').disabled).toBe(true);
    expect(page.host.textContent).toContain('Tracing was not set on thumbs');
  });
});
