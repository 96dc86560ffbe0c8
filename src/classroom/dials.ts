import type { InventedFilmSpec } from '../phantom/spec.ts';
import { BEND, BREAK } from './break-dials.ts';
import type { Dial, DialGroup } from './dial.ts';
import { BEAM, BESIDE, EXPOSURE } from './film-dials.ts';
import { HAND, VIEW } from './pose-dials.ts';

export const DIAL_GROUPS: readonly { readonly id: DialGroup; readonly title: string }[] = [
  { id: 'bend', title: 'How far it is out of line' },
  { id: 'break', title: 'The break' },
  { id: 'view', title: 'The view' },
  { id: 'hand', title: 'The hand' },
  { id: 'beam', title: 'The beam' },
  { id: 'exposure', title: 'The exposure' },
  { id: 'beside', title: 'Beside the hand' },
];

/** Everything about an invented film that teaches something when it is turned. */
export const DIALS: readonly Dial[] = [...BEND, ...BREAK, ...VIEW, ...HAND, ...BEAM, ...EXPOSURE, ...BESIDE];

/** A dial by its id. Throws for an id that no dial has, since ids are written by us. */
export function dialOf(id: string): Dial {
  const dial = DIALS.find((candidate) => candidate.id === id);
  if (dial === undefined) throw new Error(`There is no dial ${id}.`);
  return dial;
}

/** Whether a dial has something to turn: dials of the break need one, distances need a beam from a point, the ball's height a ball. */
export function isIdle({ group, id }: Dial, spec: InventedFilmSpec): boolean {
  if (group === 'bend' || group === 'break') return spec.fractures.length === 0;
  if (id === 'ballHeight') return spec.extras.knownObject === null;
  return (id === 'distance' || id === 'lift') && spec.beam.kind === 'parallel';
}
