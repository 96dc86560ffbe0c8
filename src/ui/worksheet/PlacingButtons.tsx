import type { BenchActions } from '../actions.ts';
import { PushButton } from '../controls/controls.tsx';

interface PlacingButtonsProps {
  readonly canStepBack: boolean;
  readonly actions: Pick<BenchActions, 'stepBackPlacing' | 'stopPlacing'>;
}

/** What the line of a mark offers while its points are being placed. */
export const PlacingButtons = ({ canStepBack, actions }: PlacingButtonsProps) => (
  <>
    {canStepBack && (
      <PushButton quiet onPress={actions.stepBackPlacing}>
        Last point back
      </PushButton>
    )}
    <PushButton onPress={actions.stopPlacing}>Stop</PushButton>
  </>
);
