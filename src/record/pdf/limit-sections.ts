import type { Assessment } from '../../case/assessment.ts';
import { valueAgainstLimit } from '../../case/comparison.ts';
import type { CaseDocument } from '../../case/document.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { quantityName, readingInWords } from '../../case/format.ts';
import type { Caution } from '../../tolerance/caution.ts';
import { limitText } from '../../tolerance/limit-words.ts';
import { type LimitTick, ticksFor } from '../../tolerance/ticks.ts';
import { knownReadings } from '../readings.ts';
import { sortedCautions } from '../words/cautions.ts';
import { type ComparedQuantity, comparedQuantities, type SetSaying } from '../words/outcomes.ts';
import { lowerFirst, withStop } from '../words/sentence.ts';
import { type Block, barred, gap, heading, lineWithWord, paragraph } from './blocks.ts';
import { INK } from './ink.ts';
import { idsOf, type OnPage } from './on-page.ts';
import { isShort, type RecordPdfInput, type RecordSetting } from './record-sections.ts';
import { type Ruler, type Strip, scaleBlock, stripBlock } from './ruler.ts';
import type { Piece } from './sheet.ts';

/**
 * Each quantity of each film that stands in full against the chosen sets, one strip for each set over one scale; then the sets that say
 * nothing, and where all of them come from.
 */
export function limitBlocks(
  setting: RecordSetting,
  { document, assessment }: RecordPdfInput,
  onPage: OnPage,
): readonly Block[] {
  const films = idsOf(onPage.inFull);
  const known = knownReadings(assessment).filter(({ filmId }) => films.has(filmId));
  const ids = new Set(known.map(({ id }) => id));
  const comparisons = assessment.comparisons.filter(({ readingId }) => ids.has(readingId));
  if (comparisons.length === 0) return [];
  const { note } = setting.styles;
  const groups = comparedQuantities(document, comparisons, known);
  const speaking = groups.filter(({ saying }) => saying.length > 0);
  const bare = setting.room === 'bare';
  const silent = new Set(groups.flatMap((group) => (bare ? silentCount(group) : group.silent) ?? []));
  const ticked = speaking.some((group) => ticksOf(document, group).length > 0);
  return [
    heading(setting, 'Against the limits'),
    ...speaking.flatMap((group) => quantityBlocks(setting, document, group)),
    ...(silent.size === 0 ? [] : [paragraph(setting, [{ text: [...silent].join(' '), style: note }], 3)]),
    paragraph(setting, [
      {
        text: [
          'Bar and dot: the reading and its 95 % interval; tint: past the limit.',
          ...(ticked ? ['Ticks on the scale: single limits that were published.'] : []),
          ...(setting.room === 'bare' ? [] : [sourceLines(setting, assessment).join(' ')]),
        ].join(' '),
        style: note,
      },
    ]),
  ];
}

/** Where the sets come from, after everything else on a page that has room for nothing more. */
export const sourceBlocks = (setting: RecordSetting, { assessment }: RecordPdfInput): readonly Block[] =>
  setting.room !== 'bare' || assessment.comparisons.length === 0
    ? []
    : [
        gap(4),
        ...sourceLines(setting, assessment).map((text) =>
          paragraph(setting, [{ text, style: setting.styles.note }]),
        ),
      ];

function sourceLines({ room }: RecordSetting, { comparisons }: Assessment): readonly string[] {
  const sources = new Set(
    comparisons
      .filter(({ reason }) => room !== 'bare' || reason !== 'no-row')
      .map(
        ({ limitSet: { title, local, revision, source } }) =>
          `${title}${local ? ' (local protocol)' : ''}, revision ${revision}: ${withStop(source.citation)}`,
      ),
  );
  const [first = '', ...more] = sources;
  return [`${sources.size === 1 ? 'Source:' : 'Sources:'} ${first}`, ...more];
}

/** "No limit on file for angulation in 5 of the chosen sets." */
function silentCount({ name, silentSets }: ComparedQuantity): string | null {
  const [what = name] = name.split(',');
  return silentSets === 0
    ? null
    : `No limit on file for ${lowerFirst(what)} in ${silentSets} of the chosen sets.`;
}

function quantityBlocks(
  setting: RecordSetting,
  document: CaseDocument,
  group: ComparedQuantity,
): readonly Block[] {
  const { strong } = setting.styles;
  // Where room is shortest, the first set that has a band is drawn, just over the scale, and the others are said.
  const drawn = group.saying.find((one) => stripOf(one) !== null);
  const bare = setting.room === 'bare';
  const inOrder = bare
    ? [...group.saying.filter((one) => one !== drawn), ...(drawn === undefined ? [] : [drawn])]
    : group.saying;
  const ruler: Ruler = {
    strips: (bare ? inOrder.slice(-1) : inOrder).flatMap((one) => stripOf(one) ?? []),
    ticks: ticksOf(document, group),
    unit: group.saying.find(({ comparison }) => comparison.row !== null)?.comparison.row?.unit ?? 'degrees',
  };
  return [
    gap(3),
    paragraph(setting, [{ text: `Film ${group.filmNumber}: ${lowerFirst(group.name)}`, style: strong }], 2),
    ...inOrder.flatMap((one) => setBlocks(setting, ruler, one, one === drawn)),
    ...(ruler.strips.length === 0 ? [] : [scaleBlock(setting, ruler)]),
  ];
}

function setBlocks(setting: RecordSetting, ruler: Ruler, one: SetSaying, isDrawn: boolean): readonly Block[] {
  const { body, strong, note } = setting.styles;
  const { row, limitSet, outcome, words } = one.comparison;
  const limit = row === null ? null : limitText(row);
  const reading = `${lowerFirst(quantityName(one.reading.quantity, one.reading.view))} ${readingInWords(one.reading).replace(' ±', '\u00a0±')}`;
  const said = `${limitSet.title}${limit === null ? '' : `, ${limit}`}: ${reading}`;
  const strip = stripOf(one);
  if (isShort(setting)) {
    const title = { text: said, style: note };
    return [
      lineWithWord(setting, title, { text: outcome, style: { ...note, face: 'sansBold', colour: INK.ink } }),
      ...(strip === null
        ? [paragraph(setting, [{ text: words, style: note }])]
        : setting.room === 'bare' && !isDrawn
          ? []
          : [stripBlock(setting, ruler, strip)]),
    ];
  }
  // The sentence begins with the outcome, which is set apart by weight.
  const begins = words.toLowerCase().startsWith(outcome);
  return [
    { ...paragraph(setting, [{ text: said, style: note }]), keepWithNext: true },
    ...(strip === null ? [] : [stripBlock(setting, ruler, strip)]),
    paragraph(
      setting,
      [
        ...(begins ? [{ text: words.slice(0, outcome.length), style: strong }] : []),
        { text: begins ? words.slice(outcome.length) : words, style: body },
      ],
      3.5,
    ),
  ];
}

function stripOf({ comparison: { row }, reading }: SetSaying): Strip | null {
  if (row === null || row.band === null) return null;
  const { expandedUncertainty } = reading;
  return { value: valueAgainstLimit(reading), expandedUncertainty, band: row.band };
}

function ticksOf(document: CaseDocument, { saying }: ComparedQuantity): readonly LimitTick[] {
  const { ray, region } = injuryOf(document);
  const row = saying.find(({ comparison }) => comparison.row !== null)?.comparison.row;
  return ray === null || region === null || row == null ? [] : ticksFor(ray, region, row.quantity);
}

/**
 * Worst first. What is cautioned against only because it was not checked is named together: the questions stand
 * under "Not checked". Where room is short, cautions of one grade share a box, and remarks have no reasons.
 */
export function cautionBlocks(
  setting: RecordSetting,
  { document, assessment }: RecordPdfInput,
): readonly Block[] {
  const { body, note, warn, strong } = setting.styles;
  const { open, rest } = sortedCautions(document, assessment);
  if (open.length + rest.length === 0) return [];
  const ample = setting.room === 'ample';
  const size = isShort(setting) ? (body.size + note.size) / 2 : body.size;
  const of = (grade: Caution['grade']) => rest.filter((caution) => caution.grade === grade);
  const barredOff = (grade: Caution['grade']) => {
    const withReasons = grade === 'stop' || setting.room !== 'bare';
    const each = of(grade).map(({ title, why }): readonly Piece[] => [
      { text: `${withStop(title)} `, style: { ...warn, size } },
      ...(withReasons ? [{ text: `${why} `, style: { ...body, size } }] : []),
    ]);
    return (ample || each.length === 0 ? each : [each.flat()]).map((pieces) => barred(setting, pieces));
  };
  const remarks = of('note');
  return [
    heading(setting, 'Cautions', 'worst first'),
    gap(4),
    ...barredOff('stop'),
    ...(open.length === 0 ? [] : [barred(setting, [{ text: open.map(withStop).join(' '), style: warn }])]),
    ...barredOff('warn'),
    ...(!ample && remarks.length > 0
      ? [
          paragraph(
            setting,
            [{ text: remarks.map(({ title }) => withStop(title)).join(' '), style: strong }],
            4,
          ),
        ]
      : remarks.map(({ title, why }) =>
          paragraph(
            setting,
            [
              { text: `${withStop(title)} `, style: strong },
              { text: why, style: body },
            ],
            4,
          ),
        )),
  ];
}
