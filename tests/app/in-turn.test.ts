import { describe, expect, it } from 'vitest';
import { inTurn } from '../../src/app/in-turn.ts';
import type { Shell } from '../../src/app/shell.ts';

const shell = () => ({ store: {} }) as unknown as Shell;
const later = () => new Promise<void>((resolve) => setTimeout(resolve, 5));

describe('changes of the case on screen', () => {
  it('are kept and shown one after another, in the order they were asked for', async () => {
    const one = shell();
    const done: string[] = [];
    const change = (name: string) =>
      inTurn(one, async () => {
        done.push(`keep ${name}`);
        await later();
        done.push(`show ${name}`);
        return name;
      });
    expect(await Promise.all([change('a'), change('b')])).toEqual(['a', 'b']);
    expect(done).toEqual(['keep a', 'show a', 'keep b', 'show b']);
  });

  it('go on after one that fails, which is told to whoever asked for it', async () => {
    const one = shell();
    const failed = inTurn(one, () => Promise.reject(new Error('no room')));
    const next = inTurn(one, () => Promise.resolve('shown'));
    await expect(failed).rejects.toThrow('no room');
    expect(await next).toBe('shown');
  });

  it('of two benches do not wait for each other', async () => {
    const held = inTurn(shell(), () => new Promise<never>(() => undefined));
    expect(await inTurn(shell(), () => Promise.resolve('shown'))).toBe('shown');
    expect(held).toBeInstanceOf(Promise);
  });
});
