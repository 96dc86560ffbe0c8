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
import type { RecordPdfInput, RecordSetting } from './record-sections.ts';
import { type Ruler, type Strip, scaleBlock, stripBlock } from './ruler.ts';
import type { Piece } from './sheet.ts';

/**
 * Each quantity of each film against the chosen sets, one strip for each set over one scale; then the sets that say
 * nothing, and where all of them come from.
 */
export function limitBlocks(
  setting: RecordSetting,
  { document, assessment }: RecordPdfInput,
): readonly Block[] {
  const { comparisons } = assessment;
  if (comparisons.length === 0) return [];
  const { note } = setting.styles;
  const groups = comparedQuantities(document, comparisons, knownReadings(assessment));
  const speaking = groups.filter(({ saying }) => saying.length > 0);
  const silent = new Set(groups.flatMap((group) => group.silent ?? []));
  const sources = new Set(
    comparisons.map(
      ({ limitSet: { title, local, revision, source } }) =>
        `${title}${local ? ' (local protocol)' : ''}, revision ${revision}: ${withStop(source.citation)}`,
    ),
  );
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
          ...(sources.size === 1 ? ['Source:'] : ['Sources:']),
          ...sources,
        ].join(' '),
        style: note,
      },
    ]),
  ];
}

function quantityBlocks(
  setting: RecordSetting,
  document: CaseDocument,
  group: ComparedQuantity,
): readonly Block[] {
  const { strong } = setting.styles;
  const ruler: Ruler = {
    strips: group.saying.flatMap((one) => stripOf(one) ?? []),
    ticks: ticksOf(document, group),
    unit: group.saying.find(({ comparison }) => comparison.row !== null)?.comparison.row?.unit ?? 'degrees',
  };
  return [
    gap(3),
    paragraph(setting, [{ text: `Film ${group.filmNumber}: ${lowerFirst(group.name)}`, style: strong }], 2),
    ...group.saying.flatMap((one) => setBlocks(setting, ruler, one)),
    ...(ruler.strips.length === 0 ? [] : [scaleBlock(setting, ruler)]),
  ];
}

function setBlocks(setting: RecordSetting, ruler: Ruler, one: SetSaying): readonly Block[] {
  const { body, strong, note } = setting.styles;
  const { row, limitSet, outcome, words } = one.comparison;
  const limit = row === null ? null : limitText(row);
  const reading = `${lowerFirst(quantityName(one.reading.quantity, one.reading.view))} ${readingInWords(one.reading)}`;
  const said = `${limitSet.title}${limit === null ? '' : `, ${limit}`}: ${reading}`;
  const strip = stripOf(one);
  if (setting.room === 'least') {
    const title = { text: said, style: note };
    return [
      lineWithWord(setting, title, { text: outcome, style: { ...note, face: 'sansBold', colour: INK.ink } }),
      strip === null ? paragraph(setting, [{ text: words, style: note }]) : stripBlock(setting, ruler, strip),
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
  const { value, expandedUncertainty } = reading;
  return { value, expandedUncertainty, band: row.band };
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
  const size = setting.room === 'least' ? (body.size + note.size) / 2 : body.size;
  const of = (grade: Caution['grade']) => rest.filter((caution) => caution.grade === grade);
  const barredOff = (grade: Caution['grade']) => {
    const each = of(grade).map(({ title, why }): readonly Piece[] => [
      { text: `${withStop(title)} `, style: { ...warn, size } },
      { text: `${why} `, style: { ...body, size } },
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
