import type { KnownFilm } from '../../classroom/reveal.ts';
import type { Film } from '../../film/film.ts';
import type { Result } from '../../geometry/result.ts';
import type { FilmPlan } from '../../phantom/invent.ts';
import type { InventedFilmSpec } from '../../phantom/spec.ts';
import type { FilmTruth } from '../../phantom/truth.ts';
import type { PhantomWorker } from '../../workers/phantom.ts';
import { LimitedWorker, type WorkerFailure } from '../limited-worker.ts';

export interface MadeFilm {
  readonly film: Film;
  readonly truth: FilmTruth;
}

/** Films are large; the last few are kept, so that going back and forth does not draw them again. */
const KEPT = 6;

/** A film takes a few seconds on a slow computer; one that takes this long will not come. */
const TIME_LIMIT_MS = 60_000;

/** Draws invented films in workers: whole ones one after another, previews as fast as dials turn. What is not drawn rejects with the reason. */
export class FilmMaker {
  private readonly whole = startWorker();
  private readonly quick = startWorker();
  private readonly kept = new Map<string, Promise<MadeFilm>>();
  private preview: {
    readonly plan: FilmPlan;
    readonly done: (made: MadeFilm) => void;
    readonly failed: (why: string) => void;
  } | null = null;
  private previewing = false;

  /** A film at its full size. */
  draw(spec: InventedFilmSpec, filmSeed: number): Promise<MadeFilm> {
    const plan: FilmPlan = { spec, filmSeed, previewScale: 1 };
    const key = JSON.stringify(plan);
    const before = this.kept.get(key);
    if (before !== undefined) return before;
    const made = answer(this.whole.ask((remote) => remote.invent(plan)));
    this.kept.set(key, made);
    // Asked for again it is drawn again: what failed once may not fail twice.
    made.catch(() => this.kept.delete(key));
    for (const oldest of [...this.kept.keys()].slice(0, -KEPT)) this.kept.delete(oldest);
    return made;
  }

  /** A film a quarter as wide and high; of requests that come faster than films, only the last is drawn. */
  drawPreview(
    spec: InventedFilmSpec,
    filmSeed: number,
    done: (made: MadeFilm) => void,
    failed: (why: string) => void,
  ): void {
    this.preview = { plan: { spec, filmSeed, previewScale: 4 }, done, failed };
    if (!this.previewing) void this.drawPreviews();
  }

  /** Truth and outlines of a film at its full size. */
  known(spec: InventedFilmSpec, filmSeed: number): Promise<KnownFilm> {
    return answer(this.quick.ask((remote) => remote.outlined({ spec, filmSeed, previewScale: 1 })));
  }

  private async drawPreviews(): Promise<void> {
    this.previewing = true;
    try {
      while (this.preview !== null) {
        const { plan, done, failed } = this.preview;
        this.preview = null;
        const made = await this.quick.ask((remote) => remote.invent(plan));
        if (this.preview !== null) continue;
        if (made.ok) done(made.value);
        else failed(whyNot(made.error));
      }
    } finally {
      this.previewing = false;
    }
  }
}

const startWorker = (): LimitedWorker<PhantomWorker> =>
  new LimitedWorker(
    () => new Worker(new URL('../../workers/phantom.ts', import.meta.url), { type: 'module' }),
    TIME_LIMIT_MS,
  );

async function answer<Value>(asked: Promise<Result<Value, WorkerFailure>>): Promise<Value> {
  const answered = await asked;
  if (!answered.ok) throw new Error(whyNot(answered.error));
  return answered.value;
}

const whyNot = (error: WorkerFailure): string =>
  error.kind === 'worker-stopped' ? error.detail : `it took longer than ${TIME_LIMIT_MS / 1000} seconds`;
