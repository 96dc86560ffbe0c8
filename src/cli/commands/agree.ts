import { limitsOfAgreement } from '../../geometry/statistics/bland-altman.ts';
import { type IccFailure, intraclassCorrelations } from '../../geometry/statistics/icc.ts';
import { repeatability } from '../../geometry/statistics/repeatability.ts';
import { type Command, complain, EXIT } from '../command.ts';
import { textOf } from '../files.ts';
import { parseRatings, type Ratings } from '../rating-file.ts';

const USAGE = 'agree FILE.csv';

/** Agreement of raters, from a table of subject, rater and value, as JSON. */
export const agree: Command = {
  usage: USAGE,
  about:
    'Agreement of raters from a table with the columns subject, rater, value: intraclass correlations, within-subject SD, and for two raters the limits of agreement.',
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
    const ratings = parseRatings(text.value, path);
    if (!ratings.ok) {
      complain(ratings.error.kind, ratings.error.message);
      return EXIT.refused;
    }
    const { subjects, raters, rows } = ratings.value;
    const icc = intraclassCorrelations(rows);
    if (!icc.ok) {
      complain(icc.error.kind, failureSentence(icc.error, ratings.value, path));
      return EXIT.refused;
    }
    const { anova, ...coefficients } = icc.value;
    const within = repeatability(rows);
    const pairs = rows.map(([first = Number.NaN, second = Number.NaN]) => [first, second] as const);
    const agreement = raters.length === 2 ? limitsOfAgreement(pairs) : null;
    console.log(
      JSON.stringify(
        {
          file: path,
          subjects: subjects.length,
          raters,
          intraclassCorrelation: {
            level: 0.95,
            '(1,1)': coefficients.oneWaySingle,
            '(2,1)': coefficients.randomSingle,
            '(3,1)': coefficients.fixedSingle,
            '(1,k)': coefficients.oneWayMean,
            '(2,k)': coefficients.randomMean,
            '(3,k)': coefficients.fixedMean,
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
          ...(within.ok ? { withinSubject: within.value } : {}),
          ...(agreement?.ok
            ? {
                limitsOfAgreement: {
                  of: `${raters[0]} − ${raters[1]}`,
                  pairs: agreement.value.pairs,
                  meanDifference: agreement.value.meanDifference,
                  sd: agreement.value.sd,
                  lower: agreement.value.lower,
                  upper: agreement.value.upper,
                },
              }
            : {}),
        },
        null,
        2,
      ),
    );
    return EXIT.done;
  },
};

function failureSentence(error: IccFailure, { subjects, raters }: Ratings, path: string): string {
  switch (error.kind) {
    case 'too-few-subjects':
      return `${path} rates ${error.found} of the ${error.needed} subjects that agreement needs at least. Add more.`;
    case 'too-few-raters':
      return `${path} has ${error.found} of the ${error.needed} raters that agreement needs at least. Add another.`;
    case 'gap-in-table':
      return `${path} has no value for subject “${subjects[error.row]}” by “${raters[error.column]}”. Fill it in, or take the subject out for all raters.`;
    case 'no-spread':
      return `All values in ${path} are the same, so there is no spread between subjects to compare with. Add subjects that differ.`;
  }
}
