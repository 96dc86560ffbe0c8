import type { InventedFilmSpec } from '../phantom/spec.ts';

/** Where a dial stands on the sheet of the film maker. */
export type DialGroup = 'bend' | 'break' | 'hand' | 'view' | 'beam' | 'exposure' | 'beside';

export interface DialFacts {
  readonly id: string;
  readonly group: DialGroup;
  readonly name: string;
  /** What turning it shows, in one sentence. */
  readonly teaches: string;
}

/** A number that can be turned. */
export interface SliderDial extends DialFacts {
  readonly kind: 'slider';
  readonly from: number;
  readonly to: number;
  readonly step: number;
  readonly unit: '°' | 'mm' | '%' | 'SD' | 'keV' | '';
  readonly get: (spec: InventedFilmSpec) => number;
  readonly set: (spec: InventedFilmSpec, value: number) => InventedFilmSpec;
}

/** One of a few. */
export interface PickDial extends DialFacts {
  readonly kind: 'pick';
  readonly options: readonly { readonly value: string; readonly name: string }[];
  readonly get: (spec: InventedFilmSpec) => string;
  readonly set: (spec: InventedFilmSpec, value: string) => InventedFilmSpec;
}

export type Dial = SliderDial | PickDial;

export type Key<Part, Value> = { [K in keyof Part]: Part[K] extends Value ? K : never }[keyof Part];
