import { useEffect, useState } from 'react';
import type { InventedFilmSpec } from '../../phantom/spec.ts';
import { say } from '../shell.ts';
import type { MadeFilm } from './film-maker.ts';
import type { Room } from './room.ts';

export interface Preview {
  /** The last one that was drawn; null before the first. */
  readonly made: MadeFilm | null;
  /** The film that is wanted now could not be drawn. Why was said. */
  readonly failed: boolean;
}

/** The quarter-size film of a spec, a little after it changes; the last one stays in sight until then. */
export function usePreview({ maker, app }: Room, spec: InventedFilmSpec, filmSeed: number): Preview {
  const [preview, setPreview] = useState<Preview>({ made: null, failed: false });
  useEffect(() => {
    let wanted = true;
    maker.drawPreview(
      spec,
      filmSeed,
      (made) => {
        if (wanted) setPreview({ made, failed: false });
      },
      (why) => {
        if (!wanted) return;
        setPreview({ made: null, failed: true });
        say(app, `The film could not be drawn (${why}). Change it, or open this page again.`);
      },
    );
    return () => {
      wanted = false;
    };
  }, [maker, app, spec, filmSeed]);
  return preview;
}
