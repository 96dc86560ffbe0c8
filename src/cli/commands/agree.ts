import { type AgreementStudy, agreementStudy } from '../../geometry/statistics/agreement-study.ts';
import type { IccFailure } from '../../geometry/statistics/icc.ts';
import { proportionSentence } from '../../geometry/statistics/proportional-difference.ts';
import { ratingsCsvSentence, readRatingsCsv } from '../../geometry/statistics/ratings-csv.ts';
import { type Command, complain, EXIT } from '../command.ts';
import { textOf } from '../files.ts';

const USAGE = 'agree FILE.csv';

/** Agreement of raters, from a table of subject, rater and value, as JSON. */
export const agree: Command = {
  usage: USAGE,
  about:
    'Agreement of raters from a table with the columns subject, rater, value: intraclass correlations, F-table, within-subject SD, repeatability, and for two raters the limits of agreement and whether one reads proportionally higher.',
  async run(args) {
    const [path, ...more] = args;
    if (path === undefined || path.startsWith('-') || more.length > 0) {
      complain('usage', `Give one table: raybend ${USAGE}`);
      return EXIT.usage;
    }
    const text = await textOf(path);
    if (!text.ok) {
      complain(text.error.kind, text.error.message);
      return EXIT.unreadable;
    }
    const readings = readRatingsCsv(text.value);
    if (!readings.ok) {
      complain(readings.error.kind, ratingsCsvSentence(readings.error, path));
      return EXIT.refused;
    }
    const study = agreementStudy(readings.value);
    const { correlations } = study;
    if (!correlations.ok) {
      complain(correlations.error.kind, failureSentence(correlations.error, path));
      return EXIT.refused;
    }
    console.log(JSON.stringify(reported(path, study, correlations.value), null, 2));
    return EXIT.done;
  },
};

type Correlations = Extract<AgreementStudy['correlations'], { readonly ok: true }>['value'];

function reported(path: string, study: AgreementStudy, found: Correlations): object {
  const { anova, ...forms } = found;
  const { subjects, complete, columns, acrossColumns, repeats, pairs } = study;
  const [pair] = columns.length === 2 ? pairs : [];
  return {
    file: path,
    subjects: complete.length,
    // The correlations rest on subjects that everybody rated.
    leftOut: subjects.filter((subject) => !complete.includes(subject)),
    raters: columns.map(({ label }) => label),
    intraclassCorrelation: {
      level: 0.95,
      '(1,1)': forms.oneWaySingle,
      '(2,1)': forms.randomSingle,
      '(3,1)': forms.fixedSingle,
      '(1,k)': forms.oneWayMean,
      '(2,k)': forms.randomMean,
      '(3,k)': forms.fixedMean,
    },
    analysisOfVariance: {
      betweenSubjects: anova.between,
      withinSubjects: anova.within,
      raters: anova.judges,
      residual: anova.residual,
      total: anova.total,
      oneWayF: anova.oneWay,
      twoWayF: anova.twoWay,
    },
    ...(acrossColumns.ok ? { withinSubject: acrossColumns.value } : {}),
    repeatsByRater: repeats.flatMap(({ rater, found: own }) => (own.ok ? [{ rater, ...own.value }] : [])),
    ...(pair?.limits.ok
      ? {
          limitsOfAgreement: {
            of: `${pair.first} − ${pair.second}`,
            pairs: pair.limits.value.pairs,
            meanDifference: pair.limits.value.meanDifference,
            sd: pair.limits.value.sd,
            lower: pair.limits.value.lower,
            upper: pair.limits.value.upper,
          },
        }
      : {}),
    ...(pair === undefined
      ? {}
      : {
          proportionalDifference: {
            of: `${pair.second} on ${pair.first}`,
            ...(pair.proportion.ok ? pair.proportion.value : { notTold: pair.proportion.error.kind }),
            sentence: proportionSentence(pair.proportion, pair.first, pair.second, ''),
          },
        }),
  };
}

function failureSentence(error: IccFailure, path: string): string {
  switch (error.kind) {
    case 'too-few-subjects':
      return `${path} has ${error.found} of the ${error.needed} subjects that agreement needs at least, counting those that every rater rated. Add more, or fill in what is missing.`;
    case 'too-few-raters':
      return `${path} has ${error.found} of the ${error.needed} raters that agreement needs at least. Add another, or a second reading of each subject.`;
    case 'gap-in-table':
      return `${path} has a gap in row ${error.row + 1}. Fill it in.`;
    case 'no-spread':
      return `All values in ${path} are the same, so there is no spread between subjects to compare with. Add subjects that differ.`;
    case 'no-between-subject-variance':
      return `All subjects in ${path} have the same mean, so no share of the variance lies between subjects. Add subjects that differ.`;
  }
}
