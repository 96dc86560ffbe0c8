import type { AgreementFailure } from '../../geometry/statistics/bland-altman.ts';
import type { IccFailure } from '../../geometry/statistics/icc.ts';
import type { PlanFailure } from '../../geometry/statistics/sample-size.ts';
import { fixedText } from '../../tolerance/number-words.ts';

/** Why there are no limits of agreement, and what to do. */
export function agreementLacks(error: AgreementFailure, who: string): string {
  switch (error.kind) {
    case 'too-few-pairs':
      return `${who}: ${error.found === 1 ? 'one reading' : `${error.found} readings`} to compare, and limits of agreement need ${error.needed}. Measure more.`;
    case 'gap-in-pairs':
      return `${who}: a reading in row ${error.row + 1} is no number. Correct it and open the table again.`;
  }
}

/** Why there is no correlation, and what to do. */
export function iccLacks(error: IccFailure): string {
  switch (error.kind) {
    case 'too-few-subjects':
      return `${error.found === 1 ? 'One film has' : `${error.found} films have`} been measured by all, and a correlation needs ${error.needed}. Measure more.`;
    case 'too-few-raters':
      return 'A correlation needs two raters, or two rounds by one. Add a rater or a round.';
    case 'gap-in-table':
      return `A reading is missing in row ${error.row + 1}. Measure it, or leave that film out for all.`;
    case 'no-spread':
      return 'All films were read alike by all, so there is nothing that a correlation could describe.';
    case 'no-between-subject-variance':
      return 'All films have the same mean, so no share of the variance lies between films. Add films that differ.';
  }
}

const PLANNED: Readonly<Record<PlanFailure['what'], string>> = {
  'expected coefficient': 'The correlation expected must lie between 0 and 1.',
  raters: 'The raters must be a whole number from 2 up.',
  width: 'The width wanted must lie between 0 and 1.',
  'half-width': 'The share of the SD must be a number above 0.0034.',
};

/** Why no number of films can be told, and what to type. */
export const planLacks = ({ what }: PlanFailure): string => `No number of films: ${PLANNED[what]}`;

/** A statistic with its sign always written, but for what rounds to nothing: "+1.25", "−0.30", "0.00". */
export function signed(value: number): string {
  const text = fixedText(value, 2);
  return Number(text) > 0 ? `+${text}` : text;
}
