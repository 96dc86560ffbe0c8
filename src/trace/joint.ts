import type { Calibration } from './calibration.ts';
import type { Group } from './groups.ts';
import type { Bell } from './mixture.ts';
import type { Weighed } from './weigh.ts';

/** The accounts of both fragments taken together: the two broken ends were one, and are about equally wide. */
export interface Joint {
  /** With the shares that each account has over all accounts of the other fragment. */
  readonly proximal: readonly Weighed[];
  readonly distal: readonly Weighed[];
  /** Belief in two accounts at once; rows are proximal. Adds up to 1. */
  readonly shares: readonly (readonly number[])[];
}

/** Squared differences of width count no further than this, and this much where a width is not known. */
const MOST_SQUARE = 9;
const UNKNOWN_SQUARE = 2;
/** Usual difference of the two widths at the break, mm. */
const WIDTH_DIFFERENCE_MM = 0.7;

/** Width of an account's bone at the break, mm; null where no outlines were followed. */
function widthAtBreak({ hypothesis: { pair } }: Weighed, breakIsLast: boolean): number | null {
  return pair === null ? null : pair.widthMm + (breakIsLast ? 0.5 : -0.5) * pair.taperMm;
}

/**
 * Takes the accounts of both fragments together.
 *
 * @param coupling - How much unequal widths at the break speak against two accounts at once.
 */
export function joined(
  proximal: readonly Weighed[],
  distal: readonly Weighed[],
  coupling: Calibration['widthCoupling'],
): Joint {
  const nearWidths = proximal.map((account) => widthAtBreak(account, true));
  const farWidths = distal.map((account) => widthAtBreak(account, false));
  const raised = proximal.map((p, i) =>
    distal.map((q, j) => {
      const near = nearWidths[i] ?? null;
      const far = farWidths[j] ?? null;
      const square =
        near === null || far === null
          ? UNKNOWN_SQUARE
          : Math.min(MOST_SQUARE, ((near - far) / WIDTH_DIFFERENCE_MM) ** 2);
      return p.bell.share * q.bell.share * Math.exp(-coupling * square);
    }),
  );
  const total = raised.reduce((sum, row) => sum + row.reduce((part, value) => part + value, 0), 0);
  const shares = raised.map((row) => row.map((value) => value / total));
  const withShare = (account: Weighed, share: number): Weighed => ({
    ...account,
    bell: { ...account.bell, share },
  });
  return {
    proximal: proximal.map((account, i) =>
      withShare(
        account,
        (shares[i] ?? []).reduce((sum, value) => sum + value, 0),
      ),
    ),
    distal: distal.map((account, j) =>
      withShare(
        account,
        shares.reduce((sum, row) => sum + (row[j] ?? 0), 0),
      ),
    ),
    shares,
  };
}

/** Bells of less than this share are left out: no interval would show them. */
const LEAST_SHARE = 3e-4;

/** The turn from the proximal to the distal axis as a mixture, both measured from their own reference. */
export function turnBells({ proximal, distal, shares }: Joint): Bell[] {
  const bells = proximal.flatMap(({ bell: p }, i) =>
    distal.map(({ bell: q }, j) => ({
      share: shares[i]?.[j] ?? 0,
      mean: q.mean - p.mean,
      variance: p.variance + q.variance,
    })),
  );
  const kept = bells.filter(({ share }) => share > LEAST_SHARE);
  const total = kept.reduce((sum, { share }) => sum + share, 0);
  return kept.map((bell) => ({ ...bell, share: bell.share / total }));
}

/** Belief in two groups at once. */
export const sharedBelief = ({ proximal, distal, shares }: Joint, p: Group, q: Group): number =>
  p.members.reduce(
    (sum, { hypothesis }) =>
      sum +
      q.members.reduce((part, member) => {
        const i = proximal.findIndex((account) => account.hypothesis === hypothesis);
        const j = distal.findIndex((account) => account.hypothesis === member.hypothesis);
        return part + (shares[i]?.[j] ?? 0);
      }, 0),
    0,
  );
