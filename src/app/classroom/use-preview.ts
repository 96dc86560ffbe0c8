import { useEffect, useState } from 'react';
import type { InventedFilmSpec } from '../../phantom/spec.ts';
import type { FilmMaker, MadeFilm } from './film-maker.ts';

/** The quarter-size film of a spec, a little after it changes; the last one stays in sight until then. */
export function usePreview(maker: FilmMaker, spec: InventedFilmSpec, filmSeed: number): MadeFilm | null {
  const [made, setMade] = useState<MadeFilm | null>(null);
  useEffect(() => {
    let wanted = true;
    maker.drawPreview(spec, filmSeed, (drawn) => {
      if (wanted) setMade(drawn);
    });
    return () => {
      wanted = false;
    };
  }, [maker, spec, filmSeed]);
  return made;
}
