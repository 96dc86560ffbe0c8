import type { Assessment } from '../../case/assessment.ts';
import { axesOnFilm } from '../../case/axes.ts';
import type {
  CaseDocument,
  FilmRecord,
  InjuryRecord,
  MarkRecord,
  MarkRole,
  RecordId,
} from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { fingerOn } from '../../case/finger.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import type { KnownReading, Quantity } from '../../case/reading.ts';
import { filmNames } from '../../case/readings/names.ts';
import { pointsOf } from '../../case/shape-points.ts';
import { failure, type Result, success } from '../../geometry/result.ts';
import type { FilmPoint } from '../../geometry/units.ts';
import type { Caution } from '../../tolerance/caution.ts';
import { decimalsFor } from '../../tolerance/number-words.ts';
import { knownReadings } from '../readings.ts';
import { scaleSentence } from '../words/scale.ts';

import {
  APEX_CODES,
  CODES,
  type Code,
  ENGLISH,
  FRACTURE,
  METHOD_CODES,
  OWN_CODES,
  PERCENT,
  QUANTITY_CODES,
  RADIOGRAPHY,
  RAY_CODES,
  UNITS,
  VIEW_CODES,
} from './codes.ts';
import { coded, container, image, num, related, spatialCoordinates, text, uidReference } from './content.ts';
import type { Dataset } from './dicom-write.ts';
import { commonModules, evidence, OWN_CODING_SCHEME, shownSide, type WritingFacts } from './modules.ts';
import { type SourceFilm, samePatient } from './source.ts';
import { placedMarks } from './sr-marks.ts';

const COMPREHENSIVE_SR = {
  sopClassUid: '1.2.840.10008.5.1.4.1.1.88.33',
  modality: 'SR',
  seriesDescription: 'Raybend measurement report',
  seriesNumber: 9701,
} as const;

export interface SrInput extends WritingFacts {
  readonly document: CaseDocument;
  readonly assessment: Assessment;
  /** By film; films that are pictures, or whose bytes are not here, are absent and left out. */
  readonly sources: ReadonlyMap<RecordId, SourceFilm>;
  /** The same at every export of this case, so that a reader can follow a finding; one for each hand. */
  readonly trackingUids: Readonly<Record<FilmRecord['hand'], string>>;
  /** Identifies this installation as the device that observed. */
  readonly deviceObserverUid: string;
}

export type SrFailure =
  /** No reading of this bone stands on a film that DICOM can refer to. */
  | { readonly kind: 'no-readings' }
  | { readonly kind: 'different-patients'; readonly films: readonly [string, string] };

interface Observed {
  readonly film: FilmRecord;
  readonly source: SourceFilm;
  readonly name: string;
  readonly marks: readonly MarkRecord[];
  readonly readings: readonly KnownReading[];
}

/**
 * A Comprehensive SR (PS3.3 A.35.3) with the readings of a case as an Imaging Measurement Report: TID 1500
 * with one measurement group (TID 1501) for each hand, each reading as a measurement (TID 300) with its
 * uncertainty, its definition and the axes it rests on, the marks as they were placed, and every caution, worst
 * first, as a comment. Not verified: nobody signs it.
 *
 * Fails where there is nothing to write or where films of the case name different patients.
 */
export function srDataset(input: SrInput): Result<Dataset, SrFailure> {
  const observed = observedFilms(input);
  const { ray } = injuryOf(input.document);
  const [first] = observed.filter((film) => isReported(film, ray));
  if (first === undefined) return failure({ kind: 'no-readings' });
  // A film that names nobody may be of anybody, so that each is held against every other.
  for (const [index, one] of observed.entries()) {
    const stranger = observed.slice(index + 1).find(({ source }) => !samePatient(one.source, source));
    if (stranger !== undefined)
      return failure({ kind: 'different-patients', films: [one.name, stranger.name] });
  }
  const { date, time } = input.writtenAt;
  return success({
    ...commonModules(first.source, COMPREHENSIVE_SR, input),
    ...OWN_CODING_SCHEME,
    ReferencedPerformedProcedureStepSequence: [],
    PerformedProcedureCodeSequence: [],
    ContentDate: date,
    ContentTime: time,
    CompletionFlag: 'COMPLETE',
    VerificationFlag: 'UNVERIFIED',
    CurrentRequestedProcedureEvidenceSequence: evidence(observed.map(({ source }) => source)),
    ...container(CODES.imagingMeasurementReport, '1500', content(observed, input)),
  });
}

function observedFilms({ document, assessment, sources }: SrInput): readonly Observed[] {
  const films = markedFilms(document);
  const names = filmNames(films.map(({ film }) => film));
  return films.flatMap(({ film, marks }) => {
    const source = sources.get(film.id);
    if (source === undefined) return [];
    const readings = knownReadings(assessment).filter((reading) => reading.filmId === film.id);
    return [{ film, source, name: names.get(film.id) ?? '', marks: Object.values(marks), readings }];
  });
}

/** A group is of one bone: what was measured on another finger of the other hand belongs to none. */
const isReported = ({ film, readings }: Observed, ray: InjuryRecord['ray']): boolean =>
  readings.length > 0 && fingerOn(film, { ray }) === ray;

function content(observed: readonly Observed[], input: SrInput): readonly Dataset[] {
  const injury = injuryOf(input.document);
  const groups = (['injured', 'other'] as const).flatMap((hand) => {
    const films = observed.filter((one) => one.film.hand === hand && isReported(one, injury.ray));
    return films.length === 0 ? [] : [related('CONTAINS', measurementGroup(hand, films, injury, input))];
  });
  const marks = observed.flatMap(({ marks: onFilm, source }) => onFilm.map((mark) => ({ mark, on: source })));
  return [
    related('HAS CONCEPT MOD', coded(CODES.language, ENGLISH)),
    ...observer(input).map((item) => related('HAS OBS CONTEXT', item)),
    related('HAS CONCEPT MOD', coded(CODES.procedureReported, RADIOGRAPHY)),
    related('CONTAINS', imageLibrary(observed)),
    related('CONTAINS', container(CODES.imagingMeasurements, null, groups)),
    ...(marks.length === 0 ? [] : [related('CONTAINS', placedMarks(marks))]),
    ...input.assessment.cautions.map((caution) =>
      related('CONTAINS', text(CODES.comment, cautionSentences(caution))),
    ),
  ];
}

/** Fixed words: a caution without its number may be passed over, a number without its caution misleads. */
const cautionSentences = ({ title, why, usually, films }: Caution): string =>
  [`${title}.`, ...(films.length === 0 ? [] : [`Concerns: ${films.join(', ')}.`]), why, usually].join(' ');

/** TID 1001 with the program as the device that observed (TID 1002, TID 1004). */
const observer = ({ deviceObserverUid, softwareVersion }: SrInput): readonly Dataset[] => [
  coded(CODES.observerType, CODES.device),
  uidReference(CODES.deviceObserverUid, deviceObserverUid),
  text(CODES.deviceObserverName, 'Raybend'),
  text(CODES.deviceObserverManufacturer, 'Raybend'),
  text(CODES.deviceObserverModelName, `Raybend ${softwareVersion}`),
];

/** TID 1600 with one group; each entry says its modality and view (TID 1602). */
const imageLibrary = (observed: readonly Observed[]): Dataset =>
  container(CODES.imageLibrary, '1600', [
    related(
      'CONTAINS',
      container(
        CODES.imageLibraryGroup,
        null,
        observed.map(({ film, source }) => {
          const context = [
            ...(MODALITY_NAMES[source.modality] === undefined
              ? []
              : [coded(CODES.modality, MODALITY_NAMES[source.modality] as Code)]),
            ...(film.view === null ? [] : [coded(CODES.imageView, VIEW_CODES[film.view])]),
          ];
          return related(
            'CONTAINS',
            image(
              source,
              context.map((item) => related('HAS ACQ CONTEXT', item)),
            ),
          );
        }),
      ),
    ),
  ]);

/** CID 29, as far as films come in them. */
const MODALITY_NAMES: Readonly<Record<string, Code>> = {
  CR: { value: 'CR', scheme: 'DCM', meaning: 'Computed Radiography' },
  DX: { value: 'DX', scheme: 'DCM', meaning: 'Digital Radiography' },
};

function measurementGroup(
  hand: FilmRecord['hand'],
  films: readonly Observed[],
  injury: InjuryRecord,
  input: SrInput,
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
function measurement(reading: KnownReading, observed: Observed, input: SrInput): Dataset {
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
  { document }: SrInput,
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
