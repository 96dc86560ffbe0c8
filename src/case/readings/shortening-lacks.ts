import type { ShorteningFailure } from '../../geometry/shortening.ts';

/** Why a shortening cannot be read on a film, and what to do, as one sentence. */
export function shorteningLacks(error: ShorteningFailure, film: string): string {
  switch (error.kind) {
    case 'no-reference-bones':
      return `No neighbour is measured on the ${film}: place its length.`;
    case 'points-coincide':
      return `Two ends of a length on the ${film} coincide: move them apart.`;
    case 'heads-too-close':
      return `The two heads of the head line on the ${film} lie too close together to carry it: choose heads farther apart.`;
  }
}
