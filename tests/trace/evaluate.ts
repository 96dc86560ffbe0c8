import { parseArgs } from 'node:util';
import { figuresOf } from './figures.ts';
import { goalsOf } from './goals.ts';
import { hardPicturesTable } from './hard-pictures.ts';
import { DRESSINGS, type Dressing, SITES, TRIED_VIEWS } from './invented-set.ts';
import { outcomesFrom } from './shared-out.ts';
import { SPOILINGS, type Spoiling } from './spoiling.ts';
import { TAP_MODES } from './tapped.ts';

/**
 * Traces invented films of a setting that nothing was calibrated on, and prints how far off it was and the table of
 * goals.
 *
 *     npm run trace:eval -- [--films 240] [--from 50000] [--view-unknown] [--setting trial|calibration]
 *                           [--spoil windowed|curved|blocky|jpeg|inverted|screenshot] [--dressing splint|cast]
 *                           [--hard-pictures] [--processes 2] [--keep folder] [--worst]
 *
 * `--hard-pictures` prints one table of every spoiling and dressing in place of the others. Films below 20000 were
 * looked at while the tracer was made, those from 20000 to 49999 while it was first judged.
 */
const { values } = parseArgs({
  options: {
    setting: { type: 'string', default: 'trial' },
    films: { type: 'string', default: '240' },
    from: { type: 'string', default: '50000' },
    keep: { type: 'string' },
    processes: { type: 'string', default: '2' },
    spoil: { type: 'string', default: 'none' },
    dressing: { type: 'string', default: 'none' },
    'hard-pictures': { type: 'boolean', default: false },
    'view-unknown': { type: 'boolean', default: false },
    worst: { type: 'boolean', default: false },
  },
});
const spoiling = values.spoil as Spoiling;
if (!(spoiling in SPOILINGS)) throw new RangeError(`There is no spoiling “${values.spoil}”.`);
const dressing = values.dressing as Dressing;
if (!DRESSINGS.includes(dressing)) throw new RangeError(`There is no dressing “${values.dressing}”.`);
const tried = {
  setting: values.setting === 'calibration' ? ('calibration' as const) : ('trial' as const),
  films: Number(values.films),
  from: Number(values.from),
  folder: values.keep ?? null,
  viewKnown: !values['view-unknown'],
  spoiling,
  dressing,
};
const processes = Number(values.processes);
if (values['hard-pictures']) {
  console.log(await hardPicturesTable(tried, processes));
  process.exit();
}
const outcomes = await outcomesFrom(tried, processes);

const percent = (share: number): string => (Number.isNaN(share) ? '–' : `${(100 * share).toFixed(0)} %`);
const one = (x: number): string => (Number.isNaN(x) ? '–' : x.toFixed(1));
const two = (x: number): string => (Number.isNaN(x) ? '–' : x.toFixed(2));
const row = (cells: readonly (string | number)[]): void => console.log(`| ${cells.join(' | ')} |`);

console.log(
  `${tried.setting} setting, films ${tried.from} to ${tried.from + tried.films - 1}, spoiling ${spoiling}, dressing ${dressing}, view ${tried.viewKnown ? 'known' : 'not known'}\n`,
);
const headings = [
  'taps',
  'group',
  'n',
  'no trace',
  'mean error / 95th',
  'bias',
  'covered',
  'half-width',
  'flagged',
  '> 5° and not flagged',
  'accepted: mean error / 95th',
  'taps alone: mean error / 95th',
];
row(headings);
row(headings.map(() => '---'));
const groups = [
  ...SITES.flatMap((site) => TRIED_VIEWS.map((view) => ({ site, view }))),
  ...SITES.map((site) => ({ site, view: null })),
];
for (const mode of TAP_MODES) {
  for (const { site, view } of groups) {
    const figures = figuresOf(
      outcomes.filter(
        (outcome) =>
          outcome.mode === mode && outcome.site === site && (view === null || outcome.view === view),
      ),
    );
    row([
      mode,
      `${view ?? 'every'} ${site}`,
      figures.count,
      figures.untraced,
      `${two(figures.meanError)} / ${one(figures.error95)}`,
      two(figures.bias),
      percent(figures.coverage),
      one(figures.halfWidth),
      percent(figures.notSure),
      percent(figures.sureAndWrong),
      `${two(figures.sureMeanError)} / ${one(figures.sureError95)}`,
      `${two(figures.byHandMean)} / ${one(figures.byHand95)}`,
    ]);
  }
}

console.log('\nGoals: four taps with an error of 1 mm, where nothing else is said\n');
row(['goal', 'wanted', 'figure', 'met']);
row(['---', '---', '---', '---']);
for (const { what, wanted, figure, met } of goalsOf(outcomes)) {
  row([what, wanted, figure, met ? 'yes' : 'no']);
}

if (values.worst) {
  console.log('\nFarthest off');
  const worst = outcomes
    .filter(({ error }) => error !== null && Math.abs(error) > 4)
    .sort((p, q) => Math.abs(q.error ?? 0) - Math.abs(p.error ?? 0))
    .slice(0, 40);
  for (const { index, mode, view, site, error, held, halfWidth, secondError, note } of worst) {
    const second = secondError === null ? '–' : one(secondError);
    console.log(
      `${index} ${mode} ${view} ${site}: ${one(error ?? 0)}°, second ${second}, ±${one(halfWidth)} ${held ? 'held' : 'MISSED'}; ${note}`,
    );
  }
}
