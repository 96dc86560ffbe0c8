import { apexOf } from '../../geometry/apex.ts';
import { combineIndependent, type Measured } from '../../geometry/propagate.ts';
import type { InjuryRecord, SettingsRecord } from '../document.ts';
import type { Reading } from '../reading.ts';
import { sideRole } from './film-angle.ts';
import { known, missing } from './known.ts';
import { inView } from './names.ts';
import { type MeasuredFilm, type Normal, normalFor } from './normal.ts';

/** What is left of a measured angle when the normal is taken off, with the normal itself as a reading. */
export interface FilmDeformity {
  readonly readings: readonly Reading[];
  /** Null while no normal can be had. */
  readonly normal: Normal | null;
  readonly measured: Measured | null;
}

/**
 * Deformity = measured − normal, each with its own uncertainty; the variance is the sum of both.
 *
 * Where the side is marked on one of the two films only, the other angle is taken to be apex dorsal.
 */
export function deformityOf(
  injured: MeasuredFilm,
  others: readonly MeasuredFilm[],
  injury: InjuryRecord,
  settings: SettingsRecord,
): FilmDeformity {
  const { film, name, angle } = injured;
  const result = normalFor(injured, others, injury, settings.normal);
  if (!result.found) {
    const readings = (['normal', 'deformity'] as const).map((quantity) =>
      missing(film, quantity, result.lacks),
    );
    return { readings, normal: null, measured: null };
  }
  const { normal } = result;
  const measured = combineIndependent(
    ([here = Number.NaN, sound = Number.NaN]) => here - sound,
    [
      { label: 'this hand', result: angle.measured },
      { label: 'normal', result: normal.measured },
    ],
  );
  const side = sideRole(film) === 'radial-side' ? 'radial' : 'dorsal';
  const constructions = [angle.proximal, angle.distal];
  const { signed } = angle.measured;
  return {
    normal,
    measured,
    readings: [
      known(film, 'normal', normal.measured, {
        unit: 'degrees',
        signed: normal.from !== 'other-hand' || signed,
        apex: normal.from === 'zero' ? null : apexOf(normal.measured.value, side),
        constructions,
        provenances: [],
        definition: `The angle that a sound bone has ${inView(film.view)}, for the ${name}.`,
        leavesOut: LEFT_OUT_OF_NORMAL[normal.from],
        basis: normal.basis,
      }),
      known(film, 'deformity', measured, {
        unit: 'degrees',
        signed,
        apex: signed ? apexOf(measured.value, side) : null,
        constructions,
        provenances: angle.provenances,
        definition: `The measured angulation on the ${name}, less the normal.`,
        leavesOut: `${LEFT_OUT_OF_NORMAL[normal.from]} What the interval of the measured angle leaves out is left out here too.`,
        basis: null,
      }),
    ],
  };
}

const LEFT_OUT_OF_NORMAL: Readonly<Record<Normal['from'], string>> = {
  'other-hand': 'The interval leaves out that two sound hands differ.',
  published: 'The interval leaves out that the norm comes from other people, measured by others.',
  zero: 'The interval leaves out the normal bend of the bone altogether.',
};
