import type { Assessment } from '../../case/assessment.ts';
import { axesOnFilm } from '../../case/axes.ts';
import type { CaseDocument, FilmRecord, InjuryRecord, MarkRecord, MarkRole } from '../../case/document.ts';
import type { KnownReading, Quantity } from '../../case/reading.ts';
import { pointsOf } from '../../case/shape-points.ts';
import type { FilmPoint } from '../../geometry/units.ts';
import { decimalsFor } from '../../tolerance/number-words.ts';
import { scaleSentence } from '../words/scale.ts';

import {
  APEX_CODES,
  CODES,
  type Code,
  FRACTURE,
  METHOD_CODES,
  OWN_CODES,
  PERCENT,
  QUANTITY_CODES,
  RAY_CODES,
  UNITS,
} from './codes.ts';
import { coded, container, num, related, spatialCoordinates, text, uidReference } from './content.ts';
import type { Dataset } from './dicom-write.ts';
import { shownSide } from './modules.ts';
import type { SourceFilm } from './source.ts';

/** A film that DICOM can refer to, with what was measured and placed on it. */
export interface Observed {
  readonly film: FilmRecord;
  readonly source: SourceFilm;
  readonly name: string;
  readonly marks: readonly MarkRecord[];
  readonly readings: readonly KnownReading[];
}

/** What the measurements are of. */
export interface MeasuredCase {
  readonly document: CaseDocument;
  readonly assessment: Assessment;
  /** The same at every export of this case, so that a reader can follow a finding; one for each hand. */
  readonly trackingUids: Readonly<Record<FilmRecord['hand'], string>>;
}

/** TID 1501 for one hand: the bone that is measured, and every reading of it with its film. */
export function measurementGroup(
  hand: FilmRecord['hand'],
  films: readonly Observed[],
  injury: InjuryRecord,
  input: MeasuredCase,
): Dataset {
  return container(CODES.measurementGroup, '1501', [
    related('HAS OBS CONTEXT', text(CODES.trackingIdentifier, trackingName(hand, injury))),
    related('HAS OBS CONTEXT', uidReference(CODES.trackingUniqueIdentifier, input.trackingUids[hand])),
    ...(hand === 'injured' ? [related('CONTAINS', coded(CODES.finding, FRACTURE))] : []),
    related('HAS CONCEPT MOD', findingSite(hand, injury)),
    ...films.flatMap((film) =>
      film.readings.map((reading) => related('CONTAINS', measurement(reading, film, input))),
    ),
  ]);
}

/** Fixed words: nothing that a person typed. */
function trackingName(hand: FilmRecord['hand'], { ray, region }: InjuryRecord): string {
  const bone = [...(ray === null ? [] : [ray]), 'metacarpal', ...(region === null ? [] : [region])].join(' ');
  return hand === 'injured' ? `Injured hand, ${bone}` : `Other hand, ${bone}`;
}

function findingSite(shown: FilmRecord['hand'], injury: InjuryRecord): Dataset {
  const { ray } = injury;
  const side = shownSide(injury, shown);
  return coded(CODES.findingSite, CODES.metacarpal, [
    ...(side === null ? [] : [related('HAS CONCEPT MOD', coded(CODES.laterality, CODES[side]))]),
    ...(ray === null ? [] : [related('HAS CONCEPT MOD', coded(CODES.topographicalModifier, RAY_CODES[ray]))]),
  ]);
}

/** TID 300: the number, what kind it is, its uncertainty and the points it was inferred from. */
function measurement(reading: KnownReading, observed: Observed, input: MeasuredCase): Dataset {
  const { quantity, unit, apex, definition, leavesOut, value, expandedUncertainty, basis } = reading;
  const units = UNITS[unit];
  const decimals = Math.max(1, decimalsFor(expandedUncertainty));
  const said = basis === null ? definition : `${definition} ${basis}.`;
  return num(CONCEPT_OF_UNIT[unit], value, value.toFixed(decimals), units, [
    related('HAS CONCEPT MOD', coded(OWN_CODES.kindOfReading, QUANTITY_CODES[quantity])),
    related('HAS CONCEPT MOD', coded(CODES.measurementMethod, METHOD_CODES[quantity])),
    ...(apex === null ? [] : [related('HAS CONCEPT MOD', coded(OWN_CODES.apex, APEX_CODES[apex]))]),
    related('HAS CONCEPT MOD', text(CODES.algorithmName, `Raybend ${quantity}`)),
    related('HAS CONCEPT MOD', text(CODES.algorithmVersion, String(input.assessment.measurementVersion))),
    related(
      'HAS PROPERTIES',
      num(CODES.uncertainty, expandedUncertainty, expandedUncertainty.toFixed(decimals), units, [
        related('HAS PROPERTIES', num(OWN_CODES.coverage, 95, '95', PERCENT)),
      ]),
    ),
    related('HAS PROPERTIES', text(OWN_CODES.definition, said)),
    related('HAS PROPERTIES', text(OWN_CODES.leavesOut, leavesOut)),
    ...(unit === 'millimetres'
      ? [related('HAS PROPERTIES', text(OWN_CODES.scale, scaleSentence(observed.film.spacing)))]
      : []),
    ...linesOf(quantity, observed, input).map((points) =>
      related(
        'INFERRED FROM',
        spatialCoordinates(CODES.path, points.length === 1 ? 'POINT' : 'POLYLINE', points, observed.source),
      ),
    ),
  ]);
}

const CONCEPT_OF_UNIT: Readonly<Record<KnownReading['unit'], Code>> = {
  degrees: CODES.angle,
  millimetres: CODES.length,
  'percent of bone': OWN_CODES.share,
  'percent of shaft width': OWN_CODES.share,
  'percent of nail width': OWN_CODES.share,
};

/**
 * The lines a reading rests on: the proximal, then the distal axis; then these marks, in this order. A normal
 * rests on none of this film, and an angle in space on two films, which its definition names.
 */
const RESTS_ON: Readonly<Record<Quantity, { readonly axes: boolean; readonly marks: readonly MarkRole[] }>> =
  {
    angulation: { axes: true, marks: [] },
    normal: { axes: false, marks: [] },
    deformity: { axes: true, marks: [] },
    'bend-place': { axes: true, marks: ['length'] },
    length: { axes: false, marks: ['length'] },
    'shortening-by-other-hand': { axes: false, marks: ['length'] },
    'shortening-by-neighbours': { axes: false, marks: ['length', 'reference-length'] },
    'shortening-by-head-line': { axes: false, marks: ['head-line', 'head-point'] },
    'shortening-by-overlap': { axes: true, marks: ['fracture-tips'] },
    'head-line-distance': { axes: false, marks: ['head-line', 'head-point'] },
    translation: { axes: true, marks: ['fracture-level'] },
    'translation-of-width': { axes: true, marks: ['fracture-level'] },
    'joint-step': { axes: false, marks: ['joint-surface', 'joint-edges'] },
    'joint-gap': { axes: false, marks: ['joint-surface', 'joint-edges'] },
    'spatial-angle': { axes: true, marks: [] },
    'spatial-direction': { axes: true, marks: [] },
    'nail-direction': { axes: false, marks: ['finger-nail', 'reference-nail'] },
    'nail-direction-difference': { axes: false, marks: ['finger-nail', 'reference-nail'] },
    'nail-overlap': { axes: false, marks: ['neighbour-nail', 'covering-edge'] },
  };

function linesOf(
  quantity: Quantity,
  { film, marks }: Observed,
  { document }: MeasuredCase,
): readonly (readonly FilmPoint[])[] {
  const { axes, marks: roles } = RESTS_ON[quantity];
  const { proximal, distal } = axesOnFilm(document, film.id);
  return [
    ...(axes ? [proximal, distal] : []).flatMap((axis) =>
      axis?.ok ? [[axis.value.from, axis.value.to]] : [],
    ),
    ...roles.flatMap((role) => {
      const shape = marks.find((mark) => mark.role === role)?.shape;
      return shape === undefined ? [] : [pointsOf(shape)];
    }),
  ];
}
