import * as Comlink from 'comlink';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { FilmMaker } from '../../../src/app/classroom/film-maker.ts';
import { beginSession } from '../../../src/app/classroom/session.ts';
import { exerciseOf } from '../../../src/classroom/exercise.ts';
import { defaultSpec } from '../../../src/phantom/default-specs.ts';
import { caseOf } from '../../case/samples.ts';
import { shellWith } from '../support.ts';

const spec = defaultSpec('small-neck-lateral');

/** Workers that answer with `api`, or are silent where there is none; each is told apart and can be seen to end. */
function workersThat(api: (which: number) => object | null) {
  const started: MessagePort[] = [];
  let ended = 0;
  vi.stubGlobal('Worker', function worker() {
    const { port1, port2 } = new MessageChannel();
    const answers = api(started.length);
    if (answers !== null) Comlink.expose(answers, port1);
    started.push(port2);
    onTestFinished(() => {
      port1.close();
      port2.close();
    });
    return Object.assign(port2, {
      terminate: () => {
        ended += 1;
      },
    });
  });
  onTestFinished(() => void vi.unstubAllGlobals());
  return { started, ended: () => ended };
}

describe('the maker of invented films', () => {
  it('draws a film again that could not be drawn at first', async () => {
    let asked = 0;
    workersThat(() => ({
      invent: () => {
        asked += 1;
        if (asked === 1) throw new Error('no memory');
        return 'a film';
      },
    }));
    const maker = new FilmMaker();
    await expect(maker.draw(spec, 1)).rejects.toThrow('no memory');
    expect(await maker.draw(spec, 1)).toBe('a film');
    expect(await maker.draw(spec, 1)).toBe('a film');
    expect(asked).toBe(2);
  });

  it('gives a worker up that never answers, and has another one draw the next film', async () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    const workers = workersThat((which) => (which === 0 ? null : { invent: () => 'a film' }));
    const maker = new FilmMaker();
    const drawn = maker.draw(spec, 1);
    const refused = expect(drawn).rejects.toThrow('it took longer than 60 seconds');
    await vi.advanceTimersByTimeAsync(60_000);
    await refused;
    expect(workers.ended()).toBe(1);
    vi.useRealTimers();
    expect(await maker.draw(spec, 2)).toBe('a film');
  });

  it('says of a worker that died that it did, without waiting for the limit', async () => {
    const workers = workersThat(() => null);
    const drawn = new FilmMaker().draw(spec, 1);
    const refused = expect(drawn).rejects.toThrow('the script is missing');
    await vi.waitFor(() => expect(workers.started).toHaveLength(1));
    workers.started[0]!.dispatchEvent(
      Object.assign(new Event('error'), { message: 'the script is missing' }),
    );
    await refused;
  });

  it('tells whoever waits for a preview that none will come', async () => {
    workersThat(() => ({
      invent: () => {
        throw new Error('no memory');
      },
    }));
    const why = await new Promise((resolve) => new FilmMaker().drawPreview(spec, 1, resolve, resolve));
    expect(why).toBe('no memory');
  });
});

describe('an exercise whose film cannot be drawn', () => {
  it('no longer looks as if it were being drawn', async () => {
    workersThat(() => ({
      invent: () => {
        throw new Error('no memory');
      },
    }));
    const exercise = exerciseOf({
      id: 'one',
      title: '',
      spec,
      filmSeed: 1,
      ray: 'small',
      asked: 'angulation',
      otherHand: false,
    });
    const session = beginSession(shellWith(caseOf(), {}), new FilmMaker(), exercise);
    expect(session.shell.store.getState().opening).toBe(1);
    await expect(session.ready).rejects.toThrow('no memory');
    expect(session.shell.store.getState().opening).toBe(0);
  });
});
