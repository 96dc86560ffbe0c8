import { type Figures, figuresOf, quantile } from './figures.ts';
import { SITES, TRIED_VIEWS } from './invented-set.ts';
import type { Outcome } from './outcomes.ts';

/** One figure that tracing is held against. */
export interface Goal {
  readonly what: string;
  readonly wanted: string;
  readonly figure: string;
  readonly met: boolean;
}

const degrees = (value: number): string => `${value.toFixed(2)}°`;
const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

/** Every goal with its figure: four taps with 1 mm of error, and 0.5 mm for a neck. */
export function goalsOf(outcomes: readonly Outcome[]): Goal[] {
  const taps = (view: string | null, site: string, mode = 'taps 1.0'): Figures =>
    figuresOf(
      outcomes.filter(
        (outcome) =>
          outcome.mode === mode && outcome.site === site && (view === null || outcome.view === view),
      ),
    );
  const both = (
    what: string,
    [error, error95]: readonly [number, number],
    [mostError, most95]: readonly [number, number],
  ): Goal => ({
    what,
    wanted: `≤ ${mostError}° / ${most95}°`,
    figure: `${degrees(error)} / ${degrees(error95)}`,
    met: error <= mostError && error95 <= most95,
  });
  const least = (what: string, figure: number, most: number, unit: (value: number) => string): Goal => ({
    what,
    wanted: `≤ ${unit(most)}`,
    figure: unit(figure),
    met: figure <= most,
  });
  const pa = taps('pa', 'shaft');
  const oblique = taps('oblique', 'shaft');
  const lateral = taps('lateral', 'shaft');
  const shafts = taps(null, 'shaft');
  return [
    both('PA shaft, mean error / 95th percentile', [pa.meanError, pa.error95], [0.7, 2]),
    both('oblique shaft, the same', [oblique.meanError, oblique.error95], [1.2, 3.5]),
    both('lateral shaft, the same, of those accepted', [lateral.sureMeanError, lateral.sureError95], [2, 5]),
    ...TRIED_VIEWS.map((view) =>
      least(`${view} neck, taps 0.5 mm, mean error`, taps(view, 'neck', 'taps 0.5').meanError, 2.3, degrees),
    ),
    ...SITES.flatMap((site) =>
      TRIED_VIEWS.map((view): Goal => {
        const { coverage, count } = taps(view, site);
        return {
          what: `interval covers, ${view} ${site} (${count} films)`,
          wanted: '92–98 %',
          figure: percent(coverage),
          met: coverage >= 0.92 && coverage <= 0.98,
        };
      }),
    ),
    ...SITES.map((site) =>
      least(`more than 5° off and not flagged, ${site}`, taps(null, site).sureAndWrong, 0.01, percent),
    ),
    least('flagged, shafts', shafts.notSure, 0.25, percent),
    least(
      'processor time of a trace with its interval, median',
      quantile(
        outcomes.map(({ milliseconds }) => milliseconds),
        0.5,
      ),
      20,
      (value) => `${value.toFixed(0)} ms`,
    ),
  ];
}
