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
  readonly belief: Readonly<Record<TraceSite, BeliefCalibration>>;
}

/** How the accounts of both fragments together become a belief about the angle. */
interface BeliefCalibration {
  /** Factor on the scores before they become shares: the fit of the weights leaves them too even. */
  readonly sharpness: number;
  /** Factor on the error of an account: where bones overlap an outline is followed less truly. At least 1. */
  readonly errorFactor: Readonly<Record<TraceView, number>>;
  /** Mass of the mixture that held the truth in 95 of 100 calibration films. */
  readonly mass: Readonly<Record<TraceView, number>>;
}

/** What is made of the scores of one request. */
export interface Belief {
  readonly sharpness: number;
  readonly errorFactor: number;
  readonly mass: number;
}

/** The numbers of a site and a view; of a view that is not known, the greatest. */
export function beliefIn({ belief }: Calibration, site: TraceSite, view: TraceView | null): Belief {
  const { sharpness, errorFactor, mass } = belief[site];
  const ofView = (numbers: Readonly<Record<TraceView, number>>): number =>
    view === null ? Math.max(...Object.values(numbers)) : numbers[view];
  return { sharpness, errorFactor: ofView(errorFactor), mass: ofView(mass) };
}

export const CALIBRATION: Calibration = numbers;
