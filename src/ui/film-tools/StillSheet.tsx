import type { ReactNode } from 'react';
import { Sheet } from '../opening/Sheet.tsx';
import type { StillPicture } from './film-tools.ts';
import { useStill } from './use-still.ts';

interface StillSheetProps {
  readonly title: string;
  readonly still: () => Promise<StillPicture | null>;
  readonly onClose: () => void;
  readonly foot: ReactNode;
  readonly children: (picture: StillPicture) => ReactNode;
}

/** A sheet with a still picture of the whole film, which is made when the sheet opens. */
export function StillSheet({ title, still, onClose, foot, children }: StillSheetProps) {
  const picture = useStill(still);
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
