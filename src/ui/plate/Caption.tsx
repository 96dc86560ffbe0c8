import type { ReactNode } from 'react';
import { PushButton, SwitchButton } from '../controls/controls.tsx';
import { Range } from '../controls/Range.tsx';

/** How the film is lit and turned: view state, never part of the case. */
export interface LightState {
  /** 0 to 1, 0.5 as the film came. */
  readonly brightness: number;
  readonly contrast: number;
  readonly negative: boolean;
  readonly mirrored: boolean;
}

export interface LightActions {
  setBrightness(value: number): void;
  setContrast(value: number): void;
  setNegative(on: boolean): void;
  setMirrored(on: boolean): void;
  /** A quarter turn clockwise. */
  turn(): void;
  wholeFilm(): void;
}

interface CaptionProps {
  readonly title: string;
  /** View, side, day and where the film came from, as a sentence. */
  readonly sentence: string;
  readonly light: LightState;
  readonly actions: LightActions;
  /** Further buttons. */
  readonly children?: ReactNode;
}

/** The sentence under the plate, and the light controls beside it. */
export function Caption({ title, sentence, light, actions, children }: CaptionProps) {
  return (
    <figcaption className="caption">
      <p className="caption__text">
        <em>{title}</em> {sentence}
        {light.mirrored && ' Shown mirrored.'}
      </p>
      <div className="caption__controls">
        <Range label="Brightness" value={light.brightness} onChange={actions.setBrightness} />
        <Range label="Contrast" value={light.contrast} onChange={actions.setContrast} />
        <SwitchButton on={light.negative} onChange={actions.setNegative}>
          Negative
        </SwitchButton>
        <PushButton onPress={actions.turn}>Turn</PushButton>
        <SwitchButton on={light.mirrored} onChange={actions.setMirrored}>
          Mirror
        </SwitchButton>
        <PushButton onPress={actions.wholeFilm}>Whole film</PushButton>
        {children}
      </div>
    </figcaption>
  );
}
