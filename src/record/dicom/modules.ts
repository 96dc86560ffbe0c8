import type { FilmRecord, InjuryRecord } from '../../case/document.ts';
import { OWN_SCHEME_DECLARED } from './codes.ts';
import type { Dataset } from './dicom-write.ts';
import type { SourceFilm } from './source.ts';

/** When something is written, as DICOM says it; from the shell's clock. */
export interface WrittenAt {
  /** DA: YYYYMMDD. */
  readonly date: string;
  /** TM: HHMMSS. */
  readonly time: string;
  /** (0008,0201) as ±HHMM. */
  readonly offsetFromUtc: string;
}

/** A moment in the local time of this computer, as DICOM says it (PS3.5 6.2, DA and TM; PS3.3 C.12.1.1.8). */
export function writtenAt(moment: Date): WrittenAt {
  const two = (value: number): string => String(value).padStart(2, '0');
  const minutes = -moment.getTimezoneOffset();
  const away = Math.abs(minutes);
  return {
    date: `${String(moment.getFullYear()).padStart(4, '0')}${two(moment.getMonth() + 1)}${two(moment.getDate())}`,
    time: `${two(moment.getHours())}${two(moment.getMinutes())}${two(moment.getSeconds())}`,
    offsetFromUtc: `${minutes < 0 ? '-' : '+'}${two(Math.floor(away / 60))}${two(away % 60)}`,
  };
}

/** What every object is given from outside, beside its content. */
export interface WritingFacts {
  readonly writtenAt: WrittenAt;
  /** A new UID at each call. */
  readonly newUid: () => string;
  /** (0018,1020): the version of this program. */
  readonly softwareVersion: string;
}

export interface ObjectKind {
  readonly sopClassUid: string;
  readonly modality: string;
  /** Fixed by us: nothing that a person typed. */
  readonly seriesDescription: string;
  /** Apart from the numbers that modalities use. */
  readonly seriesNumber: number;
}

/**
 * The modules that all objects share: patient and study as the source film has them, a series of our own, the
 * equipment, and the identity of the object (PS3.3 C.7.1.1, C.7.2.1, C.7.3.1, C.7.5.1, C.12.1).
 */
export function commonModules(source: SourceFilm, kind: ObjectKind, facts: WritingFacts): Dataset {
  const { writtenAt: at, newUid, softwareVersion } = facts;
  const { IssuerOfPatientID, ...context } = source.context;
  return {
    ...context,
    // Type 3: written where the source has it.
    ...(IssuerOfPatientID === '' ? {} : { IssuerOfPatientID }),
    StudyInstanceUID: source.studyInstanceUid,
    Modality: kind.modality,
    SeriesInstanceUID: newUid(),
    SeriesNumber: String(kind.seriesNumber),
    SeriesDescription: kind.seriesDescription,
    Manufacturer: 'Raybend',
    ManufacturerModelName: 'Raybend',
    SoftwareVersions: softwareVersion,
    SOPClassUID: kind.sopClassUid,
    SOPInstanceUID: newUid(),
    InstanceNumber: '1',
    TimezoneOffsetFromUTC: at.offsetFromUtc,
    SpecificCharacterSet: 'ISO_IR 192',
  };
}

/** The side of the hand that a film shows; null where the injured one is not said. */
export function shownSide({ hand }: InjuryRecord, shown: FilmRecord['hand']): 'left' | 'right' | null {
  if (hand === null || shown === 'injured') return hand;
  return hand === 'left' ? 'right' : 'left';
}

/** (0020,0060), type 2C for a paired part of the body: empty only where it is not known. */
export function lateralityOf(injury: InjuryRecord, shown: FilmRecord['hand']): 'L' | 'R' | '' {
  const side = shownSide(injury, shown);
  return side === null ? '' : side === 'left' ? 'L' : 'R';
}

/** (0008,0110) for the objects that use codes of our own. */
export const OWN_CODING_SCHEME: Dataset = { CodingSchemeIdentificationSequence: [OWN_SCHEME_DECLARED] };

/** References to films by study and series (PS3.3 C.17.2.1). */
export function evidence(films: readonly SourceFilm[]): readonly Dataset[] {
  const studies = new Map<string, Map<string, Map<string, SourceFilm>>>();
  for (const film of films) {
    const series = studies.get(film.studyInstanceUid) ?? new Map<string, Map<string, SourceFilm>>();
    const instances = series.get(film.seriesInstanceUid) ?? new Map<string, SourceFilm>();
    instances.set(film.sopInstanceUid, film);
    series.set(film.seriesInstanceUid, instances);
    studies.set(film.studyInstanceUid, series);
  }
  return [...studies].map(([study, series]) => ({
    StudyInstanceUID: study,
    ReferencedSeriesSequence: [...series].map(([seriesUid, instances]) => ({
      SeriesInstanceUID: seriesUid,
      ReferencedSOPSequence: [...instances.values()].map((film) => ({
        ReferencedSOPClassUID: film.sopClassUid,
        ReferencedSOPInstanceUID: film.sopInstanceUid,
      })),
    })),
  }));
}
