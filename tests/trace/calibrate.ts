import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { TruthAxis } from '../../src/phantom/truth.ts';
import { CALIBRATION, type Calibration } from '../../src/trace/calibration.ts';
import { joined, turnBells } from '../../src/trace/joint.ts';
import { type Bell, bellDensity, shortestInterval } from '../../src/trace/mixture.ts';
import { type FragmentSearch, searchBone } from '../../src/trace/search.ts';
import { weigh, wrapped } from '../../src/trace/weigh.ts';
import { type Example, fitScore } from './fit-score.ts';
import { SITES, type Site, type TriedView } from './invented-set.ts';
import { cropOf } from './kept-crops.ts';
import { TAP_MODES, type TapMode, tapped } from './tapped.ts';

/**
 * Sets the numbers of src/trace/calibration.json on invented films of the calibration setting.
 *
 *     npx tsx tests/trace/calibrate.ts [--films 720] [--keep folder] [--masses-only]
 *
 * With `--masses-only` the scores stay as they are, and only the masses of the intervals are set anew.
 */
const { values } = parseArgs({
  options: {
    films: { type: 'string', default: '720' },
    keep: { type: 'string' },
    'masses-only': { type: 'boolean', default: false },
  },
});
const films = Number(values.films);

interface Seen {
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

const seen: Seen[] = [];
for (let index = 0; index < films; index += 1) {
  const { planned, crop } = cropOf('calibration', index, values.keep ?? null);
  for (const mode of TAP_MODES) {
    const found = searchBone(tapped(planned, crop, mode, index));
    if (!found.ok) continue;
    seen.push({
      mode,
      site: planned.site,
      view: planned.view,
      proximal: found.value.proximal,
      distal: found.value.distal,
      proximalTruth: directionOf(crop.proximalAxis),
      distalTruth: directionOf(crop.distalAxis),
    });
  }
}

const example = ({ hypotheses }: FragmentSearch, truth: number): Example => ({
  hypotheses,
  errors: hypotheses.map(({ direction }) => wrapped(direction - truth)),
});
const distal = (site: Site): Example[] =>
  seen.filter((film) => film.site === site).map((film) => example(film.distal, film.distalTruth));

const tails = { share: 0.12, factor: 3 };
const fitScores = () => ({
  proximal: fitScore(
    seen.map((film) => example(film.proximal, film.proximalTruth)),
    tails,
  ),
  distal: fitScore(distal('shaft'), tails),
  neck: fitScore(distal('neck'), tails),
});
const fitted = values['masses-only'] ? CALIBRATION : fitScores();

/** The turn's mixture in every film of a site, measured from the truth; of a view and a way of tapping if one is given. */
function mixtures(
  site: Site,
  coupling: number,
  only: { view: TriedView; mode: TapMode } | null = null,
): Bell[][] {
  const far = site === 'neck' ? fitted.neck : fitted.distal;
  return seen
    .filter(
      (film) => film.site === site && (only === null || (film.view === only.view && film.mode === only.mode)),
    )
    .map((film) =>
      turnBells(
        joined(
          weigh(film.proximal.hypotheses, fitted.proximal, film.proximalTruth),
          weigh(film.distal.hypotheses, far, film.distalTruth),
          coupling,
        ),
      ),
    );
}

const likelihood = (coupling: number): number =>
  SITES.flatMap((site) => mixtures(site, coupling)).reduce(
    (sum, bells) =>
      sum + Math.log(1e-6 + bells.reduce((part, bell) => part + bell.share * bellDensity(0, bell, tails), 0)),
    0,
  );
const COUPLINGS = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7];
const widthCoupling = values['masses-only']
  ? CALIBRATION.widthCoupling
  : COUPLINGS.map((coupling) => ({ coupling, fit: likelihood(coupling) })).reduce((best, next) =>
      next.fit > best.fit ? next : best,
    ).coupling;

/** The least mass whose interval holds the truth in the wanted share of films, tapped in whichever way it holds least. */
const massFor = (site: Site, view: TriedView, wanted: number): number =>
  Math.max(...TAP_MODES.map((mode) => massOfMode(mixtures(site, widthCoupling, { view, mode }), wanted)));

function massOfMode(all: readonly Bell[][], wanted: number): number {
  let low = 0.6;
  let high = 0.99;
  for (let round = 0; round < 7; round += 1) {
    const mass = (low + high) / 2;
    const held = all.filter((bells) => {
      const { from, to } = shortestInterval(bells, mass, tails);
      return from <= 0 && to >= 0;
    });
    if (held.length / all.length < wanted) low = mass;
    else high = mass;
  }
  return high;
}

const rounded = (value: number): number => Number(value.toPrecision(5));
const tidy = (numbers: typeof fitted.neck): typeof fitted.neck => ({
  weights: numbers.weights.map(rounded),
  directionError: rounded(numbers.directionError),
  placeError: rounded(numbers.placeError),
  unevenFactor: rounded(numbers.unevenFactor),
  tapFactor: rounded(numbers.tapFactor),
});
const WANTED_COVERAGE = 0.965;
const masses = (site: Site): Readonly<Record<TriedView, number>> => ({
  pa: rounded(massFor(site, 'pa', WANTED_COVERAGE)),
  oblique: rounded(massFor(site, 'oblique', WANTED_COVERAGE)),
  lateral: rounded(massFor(site, 'lateral', WANTED_COVERAGE)),
});
/**
 * Of a neck the greatest of the three views for all of them: its error is mostly that of the tapped stump, whatever the
 * view, and what one view of one setting holds in by chance it does not in other hands.
 */
const alike = (each: Readonly<Record<TriedView, number>>): typeof each => {
  const most = Math.max(...Object.values(each));
  return { pa: most, oblique: most, lateral: most };
};
const calibration: Calibration = {
  basis: `calibrated on ${films} invented films`,
  proximal: tidy(fitted.proximal),
  distal: tidy(fitted.distal),
  neck: tidy(fitted.neck),
  tails,
  widthCoupling,
  mass: { shaft: masses('shaft'), neck: alike(masses('neck')) },
};
const file = resolve(import.meta.dirname, '../../src/trace/calibration.json');
writeFileSync(file, `${JSON.stringify(calibration, null, 2)}\n`);
console.log(JSON.stringify(calibration, null, 2));
