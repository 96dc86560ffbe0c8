import type { TraceRequest } from '../../src/trace/request.ts';
import { bentBone, drawn, requestFor, tubesOf } from './drawn-film.ts';

/** Pieces of film to be timed on: 50 mm × 80 mm at 0.125 mm, 400 × 640 pixels. */
const scale = { unit: 'mm', perColumn: 0.125, perRow: 0.125 } as const;
const film = { widthMm: 50, heightMm: 80, scale, noise: 10, seed: 3 } as const;

const bone = bentBone(24);
const beside = [31, 36].flatMap((x) => tubesOf(bentBone(12, x)));

export const loneRequest: TraceRequest = requestFor(bone, drawn({ ...film, tubes: tubesOf(bone) }), scale, 1);

export const crowdedRequest: TraceRequest = {
  ...requestFor(bone, drawn({ ...film, tubes: [...tubesOf(bone), ...beside] }), scale, 1),
  view: 'lateral',
};

export const neckRequest: TraceRequest = {
  ...requestFor(
    bone,
    drawn({ ...film, tubes: tubesOf(bone), balls: [{ at: bone.head, radiusMm: 6.5 }] }),
    scale,
    1,
  ),
  site: 'neck',
};
