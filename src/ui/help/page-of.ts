import type { Quantity } from '../../case/reading.ts';
import type { ShapeConstruction } from '../../case/roles.ts';
import type { Construction } from '../../tolerance/anatomy.ts';
import type { HelpId } from './page.ts';

/** The page that defines each reading. */
export const PAGE_OF_QUANTITY: Readonly<Record<Quantity, HelpId>> = {
  angulation: 'angulation',
  normal: 'deformity',
  deformity: 'deformity',
  'bend-place': 'bend-place',
  length: 'length',
  'shortening-by-other-hand': 'shortening',
  'shortening-by-neighbours': 'shortening',
  'shortening-by-head-line': 'shortening',
  'shortening-by-overlap': 'shortening',
  'head-line-distance': 'shortening',
  translation: 'translation',
  'translation-of-width': 'translation',
  'joint-step': 'joint-surface',
  'joint-gap': 'joint-surface',
  'spatial-angle': 'spatial-angle',
  'spatial-direction': 'spatial-angle',
  'nail-direction': 'fist-photograph',
  'nail-direction-difference': 'fist-photograph',
  'nail-overlap': 'fist-photograph',
};

const DEFINED: readonly ShapeConstruction[] = [
  'free',
  'cortex-pair',
  'canal',
  'dorsal-cortex',
  'head',
] satisfies readonly Construction[];

/** The page that defines an axis of this construction; null for simpler marks. */
export const pageOfConstruction = (construction: ShapeConstruction): HelpId | null =>
  DEFINED.includes(construction) ? (construction as HelpId) : null;
