import { type ReactNode, useEffect, useState } from 'react';
import { Sheet } from '../opening/Sheet.tsx';
import type { StillPicture } from './film-tools.ts';

interface StillSheetProps {
  readonly title: string;
  readonly still: () => Promise<StillPicture | null>;
  readonly onClose: () => void;
  readonly foot: ReactNode;
  readonly children: (picture: StillPicture) => ReactNode;
}

/** A sheet with a still picture of the whole film, which is made when the sheet opens. */
export function StillSheet({ title, still, onClose, foot, children }: StillSheetProps) {
  const [picture, setPicture] = useState<StillPicture | 'none' | null>(null);
  useEffect(() => {
    let made: StillPicture | null = null;
    let gone = false;
    void still().then((found) => {
      made = found;
      if (gone && found !== null) URL.revokeObjectURL(found.url);
      else setPicture(found ?? 'none');
    });
    return () => {
      gone = true;
      if (made !== null) URL.revokeObjectURL(made.url);
    };
  }, [still]);
  return (
    <Sheet title={title} wide onClose={onClose} foot={foot}>
      {picture === null || picture === 'none' ? (
        <p role="status">
          {picture === null
            ? 'Getting the picture…'
            : 'This film is not on the plate yet. Close this page, wait until the film is shown, and open it again.'}
        </p>
      ) : (
        children(picture)
      )}
    </Sheet>
  );
}
