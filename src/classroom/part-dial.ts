import type { InventedFilmSpec } from '../phantom/spec.ts';
import type { Key, SliderDial } from './dial.ts';

/** A slider over one number of one part of a spec. */
export const ofPart = <Part extends 'view' | 'exposure' | 'film'>(
  part: Part,
  key: Key<InventedFilmSpec[Part], number>,
  facts: Omit<SliderDial, 'kind' | 'get' | 'set'>,
): SliderDial => ({
  kind: 'slider',
  ...facts,
  get: (spec) => spec[part][key] as number,
  set: (spec, value) => ({ ...spec, [part]: { ...spec[part], [key]: value } }),
});
