import numbers from './calibration.json' with { type: 'json' };
import type { TraceSite, TraceView } from './request.ts';

/** How the accounts of one kind of fragment are weighed. */
export interface FragmentCalibration {
  /** One for each feature of `shaft.ts` or `neck.ts`, in that order. */
  readonly weights: readonly number[];
  /** Error of a direction when everything it rests on is right, radians. */
  readonly directionError: number;
  /** Error of the places an axis rests on, mm (a share of the stated errors for a neck). */
  readonly placeError: number;
  /** Factor on the error that the unevenness of the outlines brings. */
  readonly unevenFactor: number;
  /** Factor on the error that the taps themselves bring. */
  readonly tapFactor: number;
}

/** Numbers set by `tests/trace/calibrate.ts` on invented films. */
export interface Calibration {
  /** What the numbers rest on, in words for a person. */
  readonly basis: string;
  readonly proximal: FragmentCalibration;
  readonly distal: FragmentCalibration;
  readonly neck: FragmentCalibration;
  /** A share of the errors is larger than usual by this factor. */
  readonly tails: { readonly share: number; readonly factor: number };
  /** How much an unequal width of the two broken ends speaks against two accounts at once. */
  readonly widthCoupling: number;
  /** Mass of the mixture that held the truth in 95 of 100 calibration films. */
  readonly mass: Readonly<Record<TraceSite, Readonly<Record<TraceView, number>>>>;
}

/** The mass an interval has to hold; of a view that is not known, the greatest. */
export const massOf = ({ mass }: Calibration, site: TraceSite, view: TraceView | null): number =>
  view === null ? Math.max(...Object.values(mass[site])) : mass[site][view];

export const CALIBRATION: Calibration = numbers;
