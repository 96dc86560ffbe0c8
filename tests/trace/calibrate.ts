import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { TruthAxis } from '../../src/phantom/truth.ts';
import { type Belief, CALIBRATION, type Calibration } from '../../src/trace/calibration.ts';
import { joined, turnBells } from '../../src/trace/joint.ts';
import { type Bell, bellDensity, shortestInterval } from '../../src/trace/mixture.ts';
import { type FragmentSearch, searchBone } from '../../src/trace/search.ts';
import { weigh, wrapped } from '../../src/trace/weigh.ts';
import { mean } from './figures.ts';
import { type Example, fitScore } from './fit-score.ts';
import { type Setting, type Site, TRIED_VIEWS, type TriedView } from './invented-set.ts';
import { cropOf } from './kept-crops.ts';
import { TAP_MODES, type TapMode, tapped } from './tapped.ts';

/**
 * Sets the numbers of src/trace/calibration.json on invented films of the calibration setting, and the masses of the
 * intervals on films of the trial setting as well, those that are there to be looked at while the tracer is made.
 *
 *     npx tsx tests/trace/calibrate.ts [--films 960] [--trial-films 349] [--keep folder] [--belief-only]
 *
 * With `--belief-only` the scores stay as they are, and only what is made of them is set anew.
 */
const { values } = parseArgs({
  options: {
    films: { type: 'string', default: '960' },
    'trial-films': { type: 'string', default: '349' },
    keep: { type: 'string' },
    'belief-only': { type: 'boolean', default: false },
  },
});
const films = Number(values.films);
/** Films of the trial setting from 20000 on judge; these lie below. */
const FIRST_TRIAL_FILM = 3000;

interface Seen {
  readonly setting: Setting;
  readonly mode: TapMode;
  readonly site: Site;
  readonly view: TriedView;
  readonly proximal: FragmentSearch;
  readonly distal: FragmentSearch;
  readonly proximalTruth: number;
  readonly distalTruth: number;
}

const directionOf = ({ from, to }: TruthAxis): number =>
  Math.atan2(to.row - from.row, to.column - from.column);

function seenIn(setting: Setting, from: number, count: number): Seen[] {
  return Array.from({ length: count }, (_, k) => from + k).flatMap((index) => {
    const { planned, crop } = cropOf(setting, index, values.keep ?? null);
    return TAP_MODES.flatMap((mode): Seen[] => {
      const found = searchBone(tapped(planned, crop, mode, index));
      if (!found.ok) return [];
      const { proximal, distal } = found.value;
      return [
        {
          setting,
          mode,
          site: planned.site,
          view: planned.view,
          proximal,
          distal,
          proximalTruth: directionOf(crop.proximalAxis),
          distalTruth: directionOf(crop.distalAxis),
        },
      ];
    });
  });
}
const seen = seenIn('calibration', 0, films);
const trialSeen = seenIn('trial', FIRST_TRIAL_FILM, Number(values['trial-films']));

const example = ({ hypotheses }: FragmentSearch, truth: number): Example => ({
  hypotheses,
  errors: hypotheses.map(({ direction }) => wrapped(direction - truth)),
});
const distal = (site: Site): Example[] =>
  seen.filter((film) => film.site === site).map((film) => example(film.distal, film.distalTruth));

const WANTED_COVERAGE = 0.965;
const tails = { share: 0.12, factor: 3 };
const fitScores = () => ({
  proximal: fitScore(
    seen.map((film) => example(film.proximal, film.proximalTruth)),
    tails,
  ),
  distal: fitScore(distal('shaft'), tails),
  neck: fitScore(distal('neck'), tails),
});
const fitted = values['belief-only'] ? CALIBRATION : fitScores();

type Sharing = Omit<Belief, 'mass'>;
type Sharings = Pick<Calibration['belief'][Site], 'sharpness' | 'errorFactor'>;
/** The turn's mixture in a film, measured from the truth. */
function mixtureOf(film: Seen, coupling: number, sharing: Sharing): Bell[] {
  const far = film.site === 'neck' ? fitted.neck : fitted.distal;
  return turnBells(
    joined(
      weigh(film.proximal.hypotheses, fitted.proximal, sharing, film.proximalTruth),
      weigh(film.distal.hypotheses, far, sharing, film.distalTruth),
      coupling,
    ),
  );
}

const likelihood = (films: readonly Seen[], coupling: number, sharing: Sharing): number =>
  films
    .map((film) => mixtureOf(film, coupling, sharing))
    .reduce(
      (sum, bells) =>
        sum +
        Math.log(1e-6 + bells.reduce((part, bell) => part + bell.share * bellDensity(0, bell, tails), 0)),
      0,
    );
/** The value of a list that the truth is likeliest with. */
function likeliest(choices: readonly number[], likelihoodWith: (choice: number) => number): number {
  const fits = choices.map(likelihoodWith);
  return choices[fits.indexOf(Math.max(...fits))] ?? 1;
}
const COUPLINGS = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7];
const AS_FITTED = { sharpness: 1, errorFactor: 1 };
const widthCoupling = values['belief-only']
  ? CALIBRATION.widthCoupling
  : likeliest(COUPLINGS, (coupling) => likelihood(seen, coupling, AS_FITTED));

const filmsOf = (site: Site, view: TriedView, among: readonly Seen[] = seen): Seen[] =>
  among.filter((film) => film.site === site && film.view === view);
const SHARPNESSES = [1, 1.1, 1.2, 1.3, 1.4, 1.5, 1.6, 1.8, 2];
/** Never below 1: no axis of a real bone is better defined than the fit of the score allows. */
const ERROR_FACTORS = [1, 1.05, 1.1, 1.15, 1.2, 1.25, 1.3, 1.35, 1.4, 1.45, 1.5, 1.6, 1.7];

/**
 * The fit of the score pulls every weight towards nothing, which tames all of them together: the shares come out too
 * even, and one set of errors for every view is too small where bones overlap. Both hide each other in the mean; with
 * two humps the interval is too wide, with one too narrow. So a factor on the scores of a site (temperature scaling:
 * Guo et al., ICML 2017) and one on the errors of each view are set afterwards, for the angle itself.
 */
function sharingOf(site: Site): Sharings {
  const errorFactor: Record<TriedView, number> = { pa: 1, oblique: 1, lateral: 1 };
  let sharpness = 1;
  for (let round = 0; round < 3; round += 1) {
    sharpness = likeliest(SHARPNESSES, (choice) =>
      TRIED_VIEWS.reduce(
        (sum, view) =>
          sum +
          likelihood(filmsOf(site, view), widthCoupling, {
            sharpness: choice,
            errorFactor: errorFactor[view],
          }),
        0,
      ),
    );
    for (const view of TRIED_VIEWS) {
      const films = filmsOf(site, view);
      errorFactor[view] = likeliest(ERROR_FACTORS, (choice) =>
        likelihood(films, widthCoupling, { sharpness, errorFactor: choice }),
      );
    }
  }
  return { sharpness, errorFactor };
}

/**
 * The mass whose interval holds the truth in the wanted share of films of some views, in the setting that it holds least
 * in. The error of a neck is that of its taps, and the way of tapping it holds least in counts; those of shafts differ by
 * chance, the greatest of which is too wide, and their mean counts.
 */
function massFor(site: Site, views: readonly TriedView[], { sharpness, errorFactor }: Sharings): number {
  const masses = [seen, trialSeen].map((among) => {
    const ofModes = TAP_MODES.map((mode) =>
      massOf(
        views
          .flatMap((view) => filmsOf(site, view, among))
          .filter((film) => film.mode === mode)
          .map((film) => mixtureOf(film, widthCoupling, { sharpness, errorFactor: errorFactor[film.view] })),
      ),
    );
    return site === 'neck' ? Math.max(...ofModes) : mean(ofModes);
  });
  return rounded(Math.max(...masses));
}

/** To a thousandth: the least that holds in the wanted share. */
function massOf(all: readonly Bell[][]): number {
  let low = 0.6;
  let high = 0.99;
  for (let round = 0; round < 8; round += 1) {
    const mass = (low + high) / 2;
    const held = all.filter((bells) => {
      const { from, to } = shortestInterval(bells, mass, tails);
      return from <= 0 && to >= 0;
    });
    if (held.length / all.length < WANTED_COVERAGE) low = mass;
    else high = mass;
  }
  return Number(high.toFixed(3));
}

const rounded = (value: number): number => Number(value.toPrecision(5));
const tidy = (numbers: typeof fitted.neck): typeof fitted.neck => ({
  weights: numbers.weights.map(rounded),
  directionError: rounded(numbers.directionError),
  placeError: rounded(numbers.placeError),
  unevenFactor: rounded(numbers.unevenFactor),
  tapFactor: rounded(numbers.tapFactor),
});
/**
 * Of necks one mass for all views: their error is mostly that of the tapped stump, whatever the view, and what one view
 * of one setting holds in by chance it does not in other hands.
 */
function beliefOf(site: Site): Calibration['belief'][Site] {
  const sharing = sharingOf(site);
  const massIn = (...views: readonly TriedView[]): number => massFor(site, views, sharing);
  if (site === 'neck') {
    const mass = massIn(...TRIED_VIEWS);
    return { ...sharing, mass: { pa: mass, oblique: mass, lateral: mass } };
  }
  return { ...sharing, mass: { pa: massIn('pa'), oblique: massIn('oblique'), lateral: massIn('lateral') } };
}

const calibration: Calibration = {
  basis: `calibrated on ${films} invented films`,
  proximal: tidy(fitted.proximal),
  distal: tidy(fitted.distal),
  neck: tidy(fitted.neck),
  tails,
  widthCoupling,
  belief: { shaft: beliefOf('shaft'), neck: beliefOf('neck') },
};
const file = resolve(import.meta.dirname, '../../src/trace/calibration.json');
writeFileSync(file, `${JSON.stringify(calibration, null, 2)}\n`);
console.log(JSON.stringify(calibration, null, 2));
