import type { InjuryRecord, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { fingerOn } from '../../case/finger.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { filmNames } from '../../case/readings/names.ts';
import { failure, type Result, success } from '../../geometry/result.ts';
import type { Caution } from '../../tolerance/caution.ts';
import { knownReadings } from '../readings.ts';

import { CODES, type Code, ENGLISH, RADIOGRAPHY, VIEW_CODES } from './codes.ts';
import { coded, container, image, related, text, uidReference } from './content.ts';
import type { Dataset } from './dicom-write.ts';
import { commonModules, evidence, OWN_CODING_SCHEME, type WritingFacts } from './modules.ts';
import { type SourceFilm, samePatient } from './source.ts';
import { placedMarks } from './sr-marks.ts';
import { type MeasuredCase, measurementGroup, type Observed } from './sr-measurements.ts';

const COMPREHENSIVE_SR = {
  sopClassUid: '1.2.840.10008.5.1.4.1.1.88.33',
  modality: 'SR',
  seriesDescription: 'Raybend measurement report',
  seriesNumber: 9701,
} as const;

export interface SrInput extends WritingFacts, MeasuredCase {
  /** By film; films that are pictures, or whose bytes are not here, are absent and left out. */
  readonly sources: ReadonlyMap<RecordId, SourceFilm>;
  /** Identifies this installation as the device that observed. */
  readonly deviceObserverUid: string;
}

export type SrFailure =
  /** No reading of this bone stands on a film that DICOM can refer to. */
  | { readonly kind: 'no-readings' }
  | { readonly kind: 'different-patients'; readonly films: readonly [string, string] };

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
