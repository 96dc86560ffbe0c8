import { type Figures, figuresOf } from './figures.ts';
import { type Dressing, SITES } from './invented-set.ts';
import type { Outcome, Tried } from './outcomes.ts';
import { outcomesFrom } from './shared-out.ts';
import type { Spoiling } from './spoiling.ts';

interface HardPicture {
  readonly name: string;
  readonly dressing?: Dressing;
  readonly spoiling?: Spoiling;
  readonly viewKnown?: false;
}

/** Pictures that nothing was set on. */
const HARD_PICTURES: readonly HardPicture[] = [
  { name: 'as they are' },
  { name: 'view not told to the tracer', viewKnown: false },
  { name: 'splint: a plaster gutter', dressing: 'splint' },
  { name: 'cast: plaster all round', dressing: 'cast' },
  { name: 'cast, in a JPEG file', dressing: 'cast', spoiling: 'jpeg' },
  { name: 'JPEG file, 8 bits, quality 50', spoiling: 'jpeg' },
  { name: 'bone dark, and not said so', spoiling: 'inverted' },
  { name: 'picture of the screen: 8 bits, window, 0.6 of the size', spoiling: 'screenshot' },
  { name: '8 bits through a window that loses a tenth at each end', spoiling: 'windowed' },
  { name: '8 bits through a curve', spoiling: 'curved' },
  { name: '32 greys, pixels merged in pairs', spoiling: 'blocky' },
];

const degrees = (value: number): string => (Number.isNaN(value) ? '–' : `${value.toFixed(2)}°`);
const percent = (share: number): string => (Number.isNaN(share) ? '–' : `${(100 * share).toFixed(0)} %`);

/** What becomes of the same films as pictures that the tracer was not set on: four taps with an error of 1 mm. */
export async function hardPicturesTable(tried: Tried, processes: number): Promise<string> {
  const lines = [
    `Films ${tried.from} to ${tried.from + tried.films - 1} of the ${tried.setting} setting, shaft / neck\n`,
    '| picture | no trace | mean error | 95th | covered | flagged | > 5° and not flagged |',
    '| --- | --- | --- | --- | --- | --- | --- |',
  ];
  for (const { name, ...how } of HARD_PICTURES) {
    const outcomes = (await outcomesFrom({ ...tried, ...how }, processes)).filter(
      ({ mode }) => mode === 'taps 1.0',
    );
    lines.push(`| ${[name, ...cellsOf(outcomes)].join(' | ')} |`);
  }
  return lines.join('\n');
}

function cellsOf(outcomes: readonly Outcome[]): string[] {
  const groups = SITES.map((site) => figuresOf(outcomes.filter((outcome) => outcome.site === site)));
  const both = (cell: (figures: Figures) => string): string => groups.map(cell).join(' / ');
  return [
    both(({ untraced }) => `${untraced}`),
    both(({ meanError }) => degrees(meanError)),
    both(({ error95 }) => degrees(error95)),
    both(({ coverage }) => percent(coverage)),
    both(({ notSure }) => percent(notSure)),
    both(({ sureAndWrong, count }) => `${Math.round(sureAndWrong * count)} of ${count}`),
  ];
}
