import type { Spacing } from '../geometry/spacing.ts';

/** Stored values of one grey frame, row by row from the top-left pixel. */
export type StoredPixels = Uint8Array | Uint16Array | Int16Array;

/** One level of the pyramid: level 0 is the film as stored, each next one half as wide and high. */
export interface PixelLevel {
  readonly columns: number;
  readonly rows: number;
  readonly pixels: StoredPixels;
}

/** (0028,1056) VOI LUT Function. PS3.3 C.11.2.1.2 and C.11.2.1.3. */
export type VoiFunction = 'LINEAR' | 'LINEAR_EXACT' | 'SIGMOID';

/** One window as stored in the file or set by the user, in output units of the modality transform. */
export interface Window {
  readonly center: number;
  readonly width: number;
  readonly function: VoiFunction;
  /** (0028,1055) Window Center & Width Explanation, or null. */
  readonly explanation: string | null;
}

/** A lookup table as DICOM stores it: descriptor `entries \ first mapped \ bits`, then the data. */
export interface LookupTable {
  readonly firstMapped: number;
  readonly bitsPerEntry: number;
  readonly entries: Uint16Array;
  /** (0028,3003) LUT Explanation, or null. */
  readonly explanation: string | null;
}

/** Stored value → modality value: a table wins over rescale (PS3.3 C.11.1). */
export type ModalityTransform =
  | { readonly kind: 'rescale'; readonly slope: number; readonly intercept: number }
  | { readonly kind: 'table'; readonly table: LookupTable };

/** Everything needed to turn stored values into display grey. */
export interface GreyScale {
  readonly bitsStored: number;
  readonly signed: boolean;
  /** MONOCHROME1 shows its lowest value white: inverted once, from here and nowhere else. */
  readonly photometric: 'MONOCHROME1' | 'MONOCHROME2';
  readonly modality: ModalityTransform;
  /** As the file lists them; the first is the default. Empty: the full range of the film is used. */
  readonly windows: readonly Window[];
  readonly voiTables: readonly LookupTable[];
  /** (0028,0120), (0028,0121): stored values that are no part of the picture; painted black. */
  readonly padding: { readonly from: number; readonly to: number } | null;
}

/** What a film says of itself that matters to a reading. Nothing here identifies a person. */
export interface FilmFacts {
  readonly format: 'dicom' | 'png' | 'jpeg';
  /** (0008,0060) Modality, e.g. CR or DX; null for pictures. */
  readonly modality: string | null;
  /** (0008,0016) SOP Class UID; null for pictures. */
  readonly sopClassUid: string | null;
  /** (0002,0010) Transfer Syntax UID; null for pictures. */
  readonly transferSyntaxUid: string | null;
  /** (0018,5101) View Position, offered and never forced. */
  readonly viewPosition: string | null;
  /** (0054,0220) View Code Sequence: the code value of its first item, of SNOMED CT or its older form. */
  readonly viewCode?: string;
  /** (0020,0062) Image Laterality, else (0020,0060) Laterality. */
  readonly laterality: 'L' | 'R' | 'B' | 'U' | null;
  /** (0020,0020) Patient Orientation, as stored. */
  readonly patientOrientation: readonly string[] | null;
  /** (0028,2110) Lossy Image Compression, or a lossy picture format; null when not stated. */
  readonly lossy: boolean | null;
  /** (0028,0301) Burned In Annotation; null when not stated. */
  readonly burnedIn: boolean | null;
  /** Of a DICOM film: how its file keeps the pixels, before colour becomes grey. */
  readonly stored?: {
    /** (0028,0004) Photometric Interpretation. */
    readonly photometric: string;
    /** (0028,0100) Bits Allocated. */
    readonly bitsAllocated: number;
  };
  /** The film was stored in colour and is shown by its luminance. */
  readonly wasColour: boolean;
  /** What was odd about the file and how it was read all the same, as sentences. */
  readonly notes: readonly string[];
}

/** A film, decoded: plain data that crosses from the worker by transfer. */
export interface Film {
  readonly columns: number;
  readonly rows: number;
  readonly levels: readonly PixelLevel[];
  /** Least and greatest stored value that is not padding. */
  readonly storedMin: number;
  readonly storedMax: number;
  readonly grey: GreyScale;
  readonly spacing: Spacing;
  readonly facts: FilmFacts;
  /** Which picture of a file that holds several this is, counted from 0; absent where there is one. */
  readonly frame?: { readonly index: number; readonly count: number };
}

/**
 * A film at a low resolution, to be looked at while the whole is decoded: the values are means over several pixels, so
 * nothing can be measured on it. Size, spacing and grey scale are those of the whole.
 */
export interface FirstPicture extends Omit<Film, 'levels'> {
  readonly level: PixelLevel;
  /**
   * Columns and rows of the film for one of `level`: a power of two. The middle of its first pixel is that of the
   * film's first pixel, since a wavelet keeps the even ones (ITU-T T.800 F.3).
   */
  readonly step: number;
}

/** Why a file is not opened. `sentence()` in `film-error.ts` says it to the person. */
export type FilmError =
  | { readonly kind: 'empty-file' }
  | { readonly kind: 'not-a-film'; readonly looksLike: string | null }
  | { readonly kind: 'damaged'; readonly format: FilmFacts['format']; readonly detail: string }
  | { readonly kind: 'truncated'; readonly expectedBytes: number; readonly foundBytes: number }
  | { readonly kind: 'no-pixel-data'; readonly sopClassName: string | null }
  | { readonly kind: 'unsupported-transfer-syntax'; readonly uid: string; readonly name: string }
  | { readonly kind: 'unsupported-picture'; readonly detail: string }
  /** The app's own decoder for this compression could not be fetched or started; the file may be sound. */
  | { readonly kind: 'codec-not-loaded'; readonly codec: string }
  | { readonly kind: 'missing-attribute'; readonly tag: string; readonly keyword: string }
  | {
      readonly kind: 'bad-attribute';
      readonly tag: string;
      readonly keyword: string;
      readonly found: string;
      readonly wanted: string;
    }
  /** A case names a part of this picture that does not lie on it. */
  | { readonly kind: 'part-not-in-picture'; readonly columns: number; readonly rows: number }
  | {
      readonly kind: 'too-large';
      readonly columns: number;
      readonly rows: number;
      readonly limitPixels: number;
    };
