import { describe, expect, it, onTestFinished } from 'vitest';
import {
  askForPermanence,
  casesGone,
  casesGoneSentence,
  type Notepad,
  noteCaseCount,
  permanence,
} from '../../src/storage/permanence.ts';
import { connectTabs, type TabNotice } from '../../src/storage/tabs.ts';
import { freshName } from './support.ts';

/** A notepad for one test. */
function notepad(): Notepad {
  const notes = new Map<string, string>();
  return { getItem: (key) => notes.get(key) ?? null, setItem: (key, value) => notes.set(key, value) };
}

describe('permanence', () => {
  it('is answered by the browser', async () => {
    const before = await permanence();
    const answer = await askForPermanence();
    expect(['promised', 'not-promised']).toContain(before);
    // Once promised it stays so; a refusal leaves it as it was.
    expect(await permanence()).toBe(answer);
  });

  it('notices that cases are gone', () => {
    const notes = notepad();
    expect(casesGone(notes, 0)).toBe(0);
    noteCaseCount(notes, 3);
    expect(casesGone(notes, 3)).toBe(0);
    expect(casesGone(notes, 1)).toBe(2);
    expect(casesGoneSentence(2)).toContain('2 cases that were kept on this computer are gone');
    expect(casesGoneSentence(1)).toContain('A case that was kept on this computer is gone');
  });

  it('does without a notepad', () => {
    const closed: Notepad = {
      getItem: () => {
        throw new DOMException('not allowed', 'SecurityError');
      },
      setItem: () => {
        throw new DOMException('not allowed', 'SecurityError');
      },
    };
    expect(() => noteCaseCount(closed, 1)).not.toThrow();
    expect(casesGone(closed, 0)).toBe(0);
  });
});

describe('tabs', () => {
  it('hear one another, not themselves, and only those of the same database', async () => {
    const [name, elsewhere] = [freshName(), freshName()];
    const tabs = [connectTabs(name), connectTabs(name), connectTabs(elsewhere)] as const;
    onTestFinished(() => {
      for (const tab of tabs) tab.close();
    });
    const heard: TabNotice[][] = [[], [], []];
    const arrived = new Promise<void>((resolve) => {
      tabs.forEach((tab, index) => {
        tab.hear((notice) => {
          heard[index]?.push(notice);
          resolve();
        });
      });
    });
    tabs[0].tell({ kind: 'case-changed', caseId: 'case-1' });
    await arrived;
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(heard).toEqual([[], [{ kind: 'case-changed', caseId: 'case-1' }], []]);
  });
});
