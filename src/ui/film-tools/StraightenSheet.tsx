import { useState } from 'react';
import type { Corners } from '../../geometry/homography.ts';
import { rectangleProportion, straightening } from '../../geometry/slant.ts';
import { Pick, PushButton } from '../controls/controls.tsx';
import type { StillPicture } from './film-tools.ts';
import { PictureArea } from './PictureArea.tsx';
import { firstCorners } from './part-drawing.ts';
import { StillSheet } from './StillSheet.tsx';

interface StraightenSheetProps {
  readonly still: () => Promise<StillPicture | null>;
  readonly onStraighten: (corners: Corners, widthToHeight: number) => void;
  readonly onLeave: (upToDegrees: number) => void;
  readonly onClose: () => void;
}

const CORNERS = ['Top left', 'Top right', 'Bottom right', 'Bottom left'] as const;

/** Usual sheets, as width to height; "found" is worked out from the corners. Common practice, no source. */
const PROPORTIONS = [
  { value: 'found', name: 'worked out from the corners', ratio: null },
  { value: '18:24', name: '18 × 24 cm, upright', ratio: 18 / 24 },
  { value: '24:18', name: '18 × 24 cm, lying', ratio: 24 / 18 },
  { value: '24:30', name: '24 × 30 cm, upright', ratio: 24 / 30 },
  { value: '30:24', name: '24 × 30 cm, lying', ratio: 30 / 24 },
  { value: '35:43', name: '35 × 43 cm, upright', ratio: 35 / 43 },
  { value: '43:35', name: '35 × 43 cm, lying', ratio: 43 / 35 },
  { value: '210:297', name: 'A4 sheet, upright', ratio: 210 / 297 },
  { value: '297:210', name: 'A4 sheet, lying', ratio: 297 / 210 },
  { value: '16:9', name: 'screen of 16 : 9', ratio: 16 / 9 },
  { value: '16:10', name: 'screen of 16 : 10', ratio: 16 / 10 },
  { value: '4:3', name: 'screen of 4 : 3', ratio: 4 / 3 },
  { value: '1:1', name: 'square', ratio: 1 },
] as const;
type ProportionId = (typeof PROPORTIONS)[number]['value'];

/** A photographed sheet or screen: its four corners say how to straighten it, and what the slant does to angles. */
export function StraightenSheet({ still, onStraighten, onLeave, onClose }: StraightenSheetProps) {
  const [moved, setMoved] = useState<Corners | null>(null);
  const [proportion, setProportion] = useState<ProportionId>('found');
  const [size, setSize] = useState<StillPicture | null>(null);
  const outcome = moved === null || size === null ? null : straightened(moved, proportion, size);
  return (
    <StillSheet
      title="Photographed at a slant"
      still={still}
      onClose={onClose}
      foot={
        <>
          <PushButton
            next
            disabled={outcome === null || moved === null}
            onPress={() => {
              if (outcome === null || moved === null) return;
              onStraighten(moved, outcome.widthToHeight);
              onClose();
            }}
          >
            Straighten
          </PushButton>
          <PushButton
            disabled={outcome === null}
            onPress={() => {
              if (outcome === null) return;
              onLeave(outcome.angleError);
              onClose();
            }}
          >
            Leave it slanted, with a caution
          </PushButton>
          <PushButton quiet onPress={onClose}>
            Close
          </PushButton>
        </>
      }
    >
      {(picture) => {
        const corners = moved ?? firstCorners(picture);
        return (
          <div className="parts">
            <PictureArea
              picture={picture}
              handles={corners.map((at, index) => ({
                key: `${index}`,
                name: `${CORNERS[index]} corner of the sheet`,
                at,
                onMove: (to) => {
                  setSize(picture);
                  setMoved(corners.with(index, to) as unknown as Corners);
                },
              }))}
            >
              {() => (
                <polygon
                  className="parts__area"
                  pointerEvents="none"
                  points={corners.map(({ column, row }) => `${column},${row}`).join(' ')}
                />
              )}
            </PictureArea>
            <div className="parts__side">
              <p>
                Move the four corners to those of the film, sheet or screen that was photographed: something
                that is a rectangle in truth.
              </p>
              <Pick
                label="Proportion"
                options={PROPORTIONS.map(({ value, name }) => ({ value, name }))}
                value={proportion}
                onChange={setProportion}
              />
              <p role="status">
                {moved === null
                  ? 'No corner has been moved yet.'
                  : outcome === null
                    ? 'These corners make no sheet: they must go round from the top left, clockwise.'
                    : `As photographed, an angle in the middle may be wrong by up to ${outcome.angleError.toFixed(1)}°. Straightening takes this out.`}
              </p>
              {outcome?.assumed && (
                <p className="aside-note">
                  The corners do not tell how far the camera stood; that of a phone is assumed. Choose the
                  proportion if you know it.
                </p>
              )}
              <p className="aside-note">
                Only what lay in the plane of the sheet is straightened. The film has no millimetres of its
                own afterwards; an object of known size gives it a scale.
              </p>
            </div>
          </div>
        );
      }}
    </StillSheet>
  );
}

function straightened(corners: Corners, proportion: ProportionId, picture: StillPicture) {
  const chosen = PROPORTIONS.find(({ value }) => value === proportion)?.ratio ?? null;
  const found = rectangleProportion(corners, picture);
  if (!found.ok) return null;
  const widthToHeight = chosen ?? found.value.widthToHeight;
  const result = straightening(corners, widthToHeight);
  if (!result.ok) return null;
  const assumed = chosen === null && found.value.focalLength === 'assumed';
  return { widthToHeight, angleError: result.value.angleError, assumed };
}
