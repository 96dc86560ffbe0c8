import type { LimitQuantity, LimitSet } from '../../tolerance/limit-set.ts';

/** What a set is compared with, as the end of a sentence. */
export const APPLIES: Readonly<Record<LimitSet['appliesTo'], string>> = {
  measured: 'compared with the angle as measured',
  deformity: 'compared with the deformity: the angle less the normal',
  'not stated': 'the source does not say whether the normal is taken off first; compared both ways',
};

export const QUANTITY: Readonly<Record<LimitQuantity, string>> = {
  'apex-dorsal': 'angulation, apex dorsal',
  coronal: 'angulation sideways',
  shortening: 'shortening',
  rotation: 'rotation',
  'joint-step': 'step in the joint surface',
};

/** Where and why the sources disagree; docs/limits/README.md tells the same at length. */
export const DISAGREEMENTS: readonly { readonly what: string; readonly how: string }[] = [
  {
    what: 'Whether the normal is taken off first.',
    how: 'A whole metacarpal is not straight from the side. One text alone says outright that a fixed 15° is subtracted; a raw 45° and “30° true” describe the same bone.',
  },
  {
    what: 'Which lines, which view.',
    how: 'Hardly any text says. Head centre and canal differ on the same film, and obliques read up to 35° too high.',
  },
  {
    what: 'Accept, reduce or operate.',
    how: 'Some numbers mean “no reduction below this”, others “operate above this”; each row keeps the sense of its source.',
  },
  {
    what: 'Independence.',
    how: 'Many share an ancestor and so agree without supporting one another.',
  },
  {
    what: 'The neck of the small finger.',
    how: 'Single published limits run from 15° to 70°. A randomised trial found a soft wrap no worse than reduction up to 70°; one series found no relation of angle and function.',
  },
  {
    what: 'Children.',
    how: 'One text is stricter than for adults, others allow more while growth remains.',
  },
];
