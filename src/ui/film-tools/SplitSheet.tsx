import { useState } from 'react';
import { PushButton } from '../controls/controls.tsx';
import type { StillPicture } from './film-tools.ts';
import { type Handle, PictureArea } from './PictureArea.tsx';
import { cornersOf, equalParts, type Rectangle, rectangleBetween, withCorner } from './part-drawing.ts';
import { StillSheet } from './StillSheet.tsx';

interface SplitSheetProps {
  readonly still: () => Promise<StillPicture | null>;
  /** The whole film has marks of its own and stays in the case. */
  readonly wholeStays: boolean;
  readonly onSplit: (parts: readonly Rectangle[]) => void;
  readonly onClose: () => void;
}

const CORNERS = ['top left', 'top right', 'bottom right', 'bottom left'] as const;

/** Two or three exposures on one plate: a rectangle drawn round each makes it a film of its own. */
export function SplitSheet({ still, wholeStays, onSplit, onClose }: SplitSheetProps) {
  const [parts, setParts] = useState<readonly Rectangle[]>([]);
  const [draft, setDraft] = useState<Rectangle | null>(null);
  return (
    <StillSheet
      title="Several exposures on one picture"
      still={still}
      onClose={onClose}
      foot={
        <>
          <PushButton
            next
            disabled={parts.length === 0}
            onPress={() => {
              onSplit(parts);
              onClose();
            }}
          >
            {parts.length < 2 ? 'Make it a film' : `Make ${parts.length} films`}
          </PushButton>
          <PushButton onPress={onClose}>Leave it whole</PushButton>
        </>
      }
    >
      {(picture) => (
        <div className="parts">
          <PictureArea
            picture={picture}
            handles={handlesOf(parts, picture, setParts)}
            onDraw={(from, to, done) => {
              const drawn = rectangleBetween(from, to, picture);
              setDraft(done ? null : drawn);
              if (done && drawn !== null) setParts([...parts, drawn]);
            }}
          >
            {(pixel) => (
              <>
                {[...parts, ...(draft === null ? [] : [draft])].map((part, index) => (
                  <g key={`${part.column} ${part.row} ${part.columns} ${part.rows}`} pointerEvents="none">
                    <rect
                      className="parts__area"
                      data-draft={index === parts.length || undefined}
                      x={part.column}
                      y={part.row}
                      width={part.columns}
                      height={part.rows}
                    />
                    <text
                      className="parts__number"
                      x={part.column + 12 * pixel}
                      y={part.row + 30 * pixel}
                      fontSize={22 * pixel}
                      strokeWidth={4 * pixel}
                    >
                      {index + 1}
                    </text>
                  </g>
                ))}
              </>
            )}
          </PictureArea>
          <div className="parts__side">
            <p>
              Draw a rectangle round each exposure. Each becomes a film with its own view, marks and readings;
              the file itself is kept once.
            </p>
            <div className="parts__buttons">
              <PushButton onPress={() => setParts(equalParts(picture, 2, 'side by side'))}>
                Two side by side
              </PushButton>
              <PushButton onPress={() => setParts(equalParts(picture, 3, 'side by side'))}>
                Three side by side
              </PushButton>
              <PushButton onPress={() => setParts(equalParts(picture, 2, 'stacked'))}>
                One above the other
              </PushButton>
            </div>
            <ul className="parts__list" aria-label="Parts">
              {parts.map((part, index) => (
                <li key={`${part.column} ${part.row} ${part.columns} ${part.rows}`}>
                  <span>
                    Part {index + 1}: {part.columns} × {part.rows} pixels
                  </span>
                  <PushButton
                    quiet
                    label={`Remove part ${index + 1}`}
                    onPress={() => setParts(parts.toSpliced(index, 1))}
                  >
                    Remove
                  </PushButton>
                </li>
              ))}
            </ul>
            {wholeStays && (
              <p className="aside-note">
                The whole picture has marks on it and stays in the case beside its parts.
              </p>
            )}
          </div>
        </div>
      )}
    </StillSheet>
  );
}

const handlesOf = (
  parts: readonly Rectangle[],
  picture: StillPicture,
  set: (parts: readonly Rectangle[]) => void,
): readonly Handle[] =>
  parts.flatMap((part, index) =>
    cornersOf(part).map((at, corner) => ({
      key: `${index} ${corner}`,
      name: `Part ${index + 1}, ${CORNERS[corner]} corner`,
      at,
      onMove: (to) => set(parts.with(index, withCorner(part, corner as 0 | 1 | 2 | 3, to, picture))),
    })),
  );
