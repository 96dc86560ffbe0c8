import { useCallback, useState } from 'react';
import type { RecordId } from '../../case/document.ts';
import { PushButton } from '../controls/controls.tsx';
import type { StillPicture } from '../film-tools/film-tools.ts';
import { PictureArea } from '../film-tools/PictureArea.tsx';
import { cornersOf, type Rectangle, rectangleBetween, withCorner } from '../film-tools/part-drawing.ts';
import { useStill } from '../film-tools/use-still.ts';

interface CoverTextProps {
  readonly filmId: RecordId;
  readonly areas: readonly Rectangle[];
  readonly still: (filmId: RecordId) => Promise<StillPicture | null>;
  readonly onChange: (areas: readonly Rectangle[]) => void;
}

const CORNERS = ['top left', 'top right', 'bottom right', 'bottom left'] as const;

/** Black rectangles over letters in a film: those that were found, and what the user draws or removes. */
export function CoverText({ filmId, areas, still, onChange }: CoverTextProps) {
  const picture = useStill(useCallback(() => still(filmId), [filmId, still]));
  const [draft, setDraft] = useState<Rectangle | null>(null);
  if (picture === null || picture === 'none')
    return (
      <p role="status">
        {picture === null
          ? 'Getting the film…'
          : 'This film has no pixels here, so no picture of it can leave and there is nothing to cover. Open its file again to have it pictured.'}
      </p>
    );
  const drawn = draft === null ? areas : [...areas, draft];
  return (
    <div className="cover">
      <PictureArea
        picture={picture}
        handles={areas.flatMap((area, index) =>
          cornersOf(area).map((at, corner) => ({
            key: `${index} ${corner}`,
            name: `Cover ${index + 1}, ${CORNERS[corner]} corner`,
            at,
            onMove: (to) =>
              onChange(areas.with(index, withCorner(area, corner as 0 | 1 | 2 | 3, to, picture))),
          })),
        )}
        onDraw={(from, to, done) => {
          const next = rectangleBetween(from, to, picture);
          setDraft(done ? null : next);
          if (done && next !== null) onChange([...areas, next]);
        }}
      >
        {() =>
          drawn.map(({ column, row, columns, rows }) => (
            <rect
              key={`${column} ${row} ${columns} ${rows}`}
              className="cover__area"
              x={column}
              y={row}
              width={columns}
              height={rows}
              pointerEvents="none"
            />
          ))
        }
      </PictureArea>
      <ul className="cover__list" aria-label="Covered areas">
        {areas.map(({ column, row, columns, rows }, index) => (
          <li key={`${column} ${row} ${columns} ${rows}`}>
            <span>
              Cover {index + 1}: {columns} × {rows} pixels
            </span>
            <PushButton
              quiet
              label={`Remove cover ${index + 1}`}
              onPress={() => onChange(areas.toSpliced(index, 1))}
            >
              Remove
            </PushButton>
          </li>
        ))}
        <li>
          <span>{areas.length === 0 ? 'Nothing is covered.' : ''} Draw over the film, or</span>
          <PushButton onPress={() => onChange([...areas, inTheMiddle(picture)])}>Add a cover</PushButton>
        </li>
      </ul>
    </div>
  );
}

/** For the keyboard: put there, then moved by its corners. */
const inTheMiddle = ({ columns, rows }: StillPicture): Rectangle => ({
  column: Math.round(columns * 0.35),
  row: Math.round(rows * 0.45),
  columns: Math.round(columns * 0.3),
  rows: Math.round(rows * 0.1),
});
