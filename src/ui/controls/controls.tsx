import { type ReactNode, useState } from 'react';
import {
  Button,
  Label,
  ListBox,
  ListBoxItem,
  Popover,
  Radio,
  RadioGroup,
  Select,
  SelectValue,
  ToggleButton,
} from 'react-aria-components';

interface PushButtonProps {
  readonly children: ReactNode;
  readonly onPress: () => void;
  /** The one thing to do next is filled; everything else is outlined. */
  readonly next?: boolean;
  readonly quiet?: boolean;
  readonly disabled?: boolean;
  readonly label?: string;
}

/** A button with a word. `label` says more to screen readers and must hold that word (WCAG 2.2, 2.5.3). */
export function PushButton({ children, onPress, next, quiet, disabled, label }: PushButtonProps) {
  return (
    <Button
      className="button"
      data-next={next || undefined}
      data-quiet={quiet || undefined}
      isDisabled={disabled ?? false}
      onPress={onPress}
      {...(label === undefined ? {} : { 'aria-label': label })}
    >
      {children}
    </Button>
  );
}

interface SwitchButtonProps {
  readonly children: ReactNode;
  readonly on: boolean;
  readonly onChange: (on: boolean) => void;
}

/** A button that stays pressed. */
export function SwitchButton({ children, on, onChange }: SwitchButtonProps) {
  return (
    <ToggleButton className="button" isSelected={on} onChange={onChange}>
      {children}
    </ToggleButton>
  );
}

export interface Option<Value extends string> {
  readonly value: Value;
  readonly name: string;
  /** Stands for no answer: chosen, it is shown plain, so that an answer stands out. */
  readonly none?: boolean;
}

interface ChoiceProps<Value extends string> {
  readonly label: string;
  readonly options: readonly Option<Value>[];
  readonly value: Value | null;
  readonly onChange: (value: Value) => void;
  readonly labelHidden?: boolean;
  readonly next?: boolean;
}

/** A few answers side by side; all of them are always in sight. */
export function Choice<Value extends string>(props: ChoiceProps<Value>) {
  const { label, options, value, onChange, labelHidden, next } = props;
  return (
    <RadioGroup
      className="choice"
      orientation="horizontal"
      value={value}
      onChange={(chosen) => onChange(chosen as Value)}
      data-next={next || undefined}
    >
      <Label className={labelHidden ? 'visually-hidden' : 'choice__label'}>{label}</Label>
      <div className="choice__options">
        {options.map((option) => (
          <Radio
            key={option.value}
            value={option.value}
            className="choice__option"
            data-none={option.none || undefined}
          >
            {option.name}
          </Radio>
        ))}
      </div>
    </RadioGroup>
  );
}

/** One of many, in a list that opens. */
export function Pick<Value extends string>(props: ChoiceProps<Value>) {
  const { label, options, value, onChange, labelHidden } = props;
  const [root, setRoot] = useState<HTMLElement | null>(null);
  // What is not within a modal sheet cannot be pressed while it is open: its lists open inside it.
  const sheet = root?.closest('dialog') ?? null;
  return (
    <Select
      ref={setRoot}
      className="pick"
      value={value}
      onChange={(key) => onChange(key as Value)}
      placeholder="not said"
    >
      <Label className={labelHidden ? 'visually-hidden' : 'pick__label'}>{label}</Label>
      <Button className="button pick__button">
        <SelectValue />
        <span aria-hidden="true" className="pick__mark" />
      </Button>
      <Popover className="pick__popover" {...(sheet === null ? {} : { UNSTABLE_portalContainer: sheet })}>
        <ListBox className="pick__list">
          {options.map((option) => (
            <ListBoxItem key={option.value} id={option.value} className="pick__item">
              {option.name}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </Select>
  );
}
