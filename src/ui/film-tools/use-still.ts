import { useEffect, useState } from 'react';
import type { StillPicture } from './film-tools.ts';

/**
 * A still picture of a film, made when it is first asked for and given back when it is no longer shown.
 *
 * @param still - Makes it; one function for as long as the picture is the same.
 * @returns `null` while it is being made, `'none'` where there is none.
 */
export function useStill(still: () => Promise<StillPicture | null>): StillPicture | 'none' | null {
  const [picture, setPicture] = useState<StillPicture | 'none' | null>(null);
  useEffect(() => {
    let made: StillPicture | null = null;
    let gone = false;
    void still().then((found) => {
      made = found;
      if (gone && found !== null) URL.revokeObjectURL(found.url);
      else if (!gone) setPicture(found ?? 'none');
    });
    return () => {
      gone = true;
      if (made !== null) URL.revokeObjectURL(made.url);
    };
  }, [still]);
  return picture;
}
