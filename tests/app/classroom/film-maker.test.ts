import * as Comlink from 'comlink';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { FilmMaker } from '../../../src/app/classroom/film-maker.ts';
import { defaultSpec } from '../../../src/phantom/default-specs.ts';

describe('the maker of invented films', () => {
  it('draws a film again that could not be drawn at first', async () => {
    let asked = 0;
    const ports: MessagePort[] = [];
    const invent = () => {
      asked += 1;
      if (asked === 1) throw new Error('no memory');
      return 'a film';
    };
    vi.stubGlobal('Worker', function worker() {
      const { port1, port2 } = new MessageChannel();
      Comlink.expose({ invent }, port1);
      ports.push(port1, port2);
      return port2;
    });
    onTestFinished(() => {
      vi.unstubAllGlobals();
      for (const port of ports) port.close();
    });
    const maker = new FilmMaker();
    const spec = defaultSpec('small-neck-lateral');
    await expect(maker.draw(spec, 1)).rejects.toThrow('no memory');
    expect(await maker.draw(spec, 1)).toBe('a film');
    expect(await maker.draw(spec, 1)).toBe('a film');
    expect(asked).toBe(2);
  });
});
