import { useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { layFirstPicture } from '../../canvas/first-picture.ts';
import type { PlateView } from '../../canvas/plate-view.ts';
import type { FirstPicture } from '../../film/film.ts';
import type { Light } from '../../film/grey-scale.ts';
import { Caption, type LightActions, type LightState } from '../../ui/plate/Caption.tsx';
import type { Shell } from '../shell.ts';

interface FirstProps {
  readonly shell: Shell;
  /** See `ShownFirst`. */
  readonly of: string;
}

const useFirst = ({ shell, of }: FirstProps): FirstPicture | null =>
  useStore(shell.store, ({ firstPicture }) => (firstPicture?.of === of ? firstPicture.picture : null));

/**
 * A coarse picture of a film that is being read, where the film will be. A picture and no plate: nothing can be placed
 * on it.
 *
 * @param light - How the film will be lit; null: as it comes.
 * @param view - How it will be shown; null: whole.
 */
export function FirstPictureOnPlate({
  light,
  view,
  ...which
}: FirstProps & { readonly light: Light | null; readonly view: PlateView | null }) {
  const host = useRef<HTMLDivElement>(null);
  const first = useFirst(which);
  useEffect(() => {
    if (first !== null && host.current !== null) return layFirstPicture(host.current, first, light, view);
    return undefined;
  }, [first, light, view]);
  if (first === null) return null;
  return (
    <>
      <div ref={host} className="plate__first" aria-hidden="true" />
      <p className="plate__prompt" role="status">
        A first, coarse picture: the film is still being read.
      </p>
    </>
  );
}

const AT_REST: LightState = { brightness: 0.5, contrast: 0.5, negative: false, mirrored: false };
const none = () => undefined;
const NO_ACTIONS: LightActions = {
  setBrightness: none,
  setContrast: none,
  setNegative: none,
  setMirrored: none,
  turn: none,
  wholeFilm: none,
};

/** Below such a picture, as high as the caption of the whole film will be: the plate must not change its size then. */
export function FirstCaption(which: FirstProps) {
  if (useFirst(which) === null) return null;
  return (
    <div className="caption-of-first" inert>
      <Caption
        title="Being read."
        sentence="Marks can be placed once the film is whole."
        light={AT_REST}
        actions={NO_ACTIONS}
      />
    </div>
  );
}
